#include "stakewright/forms/correction_sheet.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "correction.hpp"
#include "reading_parts.hpp"
#include "sheets.hpp"
#include "stakewright/base/angle.hpp"

namespace stakewright::forms {
namespace {

constexpr Style kVerdict{.size_pt = 14.0, .weight = drawing::Weight::bold};
constexpr Style kSentence{.size_pt = 12.0};
constexpr double kSentencePad_pt = 8.0;

std::string in_a_row(const std::vector<std::string>& labels) {
  return fmt::format("{}", fmt::join(labels, ", "));
}

std::vector<std::string> corners_that_are(const CorrectionInput& input,
                                          placement::Verdict verdict) {
  std::vector<std::string> labels;
  const auto count = input.findings.network.corner_count;
  for (std::size_t i = 0; i < count; ++i) {
    const auto found = input.findings.placement ? input.findings.placement->corners[i].verdict
                                                : placement::Verdict::undecided;
    if (found == verdict) labels.push_back(input.label(i));
  }
  return labels;
}

/// Footings whose level is so judged; none where no rod was read.
std::vector<std::string> footings_that_are(const CorrectionInput& input,
                                           placement::Verdict verdict) {
  std::vector<std::string> labels;
  if (!input.findings.levels) return labels;
  const auto& footings = input.findings.levels->footings;
  for (std::size_t i = 0; i < footings.size(); ++i)
    if (footings[i].known && footings[i].verdict == verdict) labels.push_back(input.label(i));
  return labels;
}

const char* verdict_key(check::Verdict verdict) {
  switch (verdict) {
    case check::Verdict::in:
      return "moving.all_in";
    case check::Verdict::out:
      return "moving.some_out";
    case check::Verdict::contradiction:
      return "moving.contradiction";
    case check::Verdict::undecided:
      break;
  }
  return "moving.undecided";
}

std::string with_tolerance(const CorrectionInput& input, std::string_view key) {
  return input.wording.filled(
      key, {{"corner",
             base::text_from_small_length(input.job.tolerance.corner_m, input.choices.units)}});
}

void add_list(RunningSheets& sheets, const CorrectionInput& input, std::string_view key,
              const std::vector<std::string>& labels) {
  if (labels.empty()) return;
  sheets.use(sheets.pen().paragraph(sheets.corner(), sheets.room().width_pt,
                                    input.wording.filled(key, {{"labels", in_a_row(labels)}}),
                                    kSentence) +
             2.0);
}

std::vector<std::string> left_out(const CorrectionInput& input) {
  std::vector<std::string> readings;
  const auto& used = input.findings.used.readings_out;
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (!used[i].excluded) continue;
    const readings::Observation& reading = input.findings.network.observations[i];
    readings.push_back(fmt::format(
        "{}–{} ({})", input.label(reading.from), input.label(reading.to),
        reading.at ? base::dms_from_angle(reading.read) : input.length_text(reading.read)));
  }
  return readings;
}

void add_opening(RunningSheets& sheets, const CorrectionInput& input) {
  sheets.add_caution(input.wording.text("moving.caution"));
  sheets.add_paragraph(with_tolerance(input, verdict_key(input.findings.places)), kVerdict);
  add_list(sheets, input, "moving.in", corners_that_are(input, placement::Verdict::in));
  add_list(sheets, input, "moving.out", corners_that_are(input, placement::Verdict::out));
  add_list(sheets, input, "moving.not_clear",
           corners_that_are(input, placement::Verdict::undecided));
  add_list(sheets, input, "moving.off_level", footings_that_are(input, placement::Verdict::out));
  add_list(sheets, input, "moving.level_not_clear",
           footings_that_are(input, placement::Verdict::undecided));
  add_list(sheets, input, "moving.left_out", left_out(input));
  sheets.use(10.0);
}

/// What the foreman puts his name to.
const char* sentence_key(const check::Findings& findings) {
  if (findings.places == check::Verdict::in) return "moving.sign_in";
  if (findings.places == check::Verdict::out && !findings.moves.empty()) return "moving.sign_moved";
  return "moving.sign_wait";
}

void add_signature(RunningSheets& sheets, const CorrectionInput& input) {
  const std::string sentence = with_tolerance(input, sentence_key(input.findings));
  const double width = sheets.room().width_pt - 2.0 * kSentencePad_pt;
  const double height = paragraph_height_pt(width, sentence, kSentence);
  const double framed = height + kField_pt + 12.0 + 2.0 * kSentencePad_pt;
  sheets.make_room(framed);
  const drawing::Box room = sheets.room();
  Pen pen = sheets.pen();
  pen.box({room.x_pt, room.y_pt, room.width_pt, framed}, 2.0);
  pen.paragraph({room.x_pt + kSentencePad_pt, room.y_pt + kSentencePad_pt}, width, sentence,
                kSentence);
  sheets.use(kSentencePad_pt + height + 12.0);
  add_fields(sheets,
             {{"signature", input.wording.text("moving.signature"), kSentencePad_pt, 0.64 * width},
              {"signature.date", input.wording.text("reading.date"), 0.68 * width,
               width + kSentencePad_pt}},
             input.wording);
}

}  // namespace

std::vector<drawing::Page> correction_sheet(const job::Job& job, const check::Findings& findings,
                                            const Wording& wording, const FormChoices& choices) {
  const CorrectionInput input{job, findings, wording, choices};
  RunningSheets sheets(SheetKind::move, choices.paper);
  add_opening(sheets, input);
  add_moves(sheets, input);
  if (findings.places != check::Verdict::in) add_asked_pulls(sheets, input);
  add_signature(sheets, input);
  return finished(sheets.taken(), job, wording, choices);
}

}  // namespace stakewright::forms
