#include "picture.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "findings.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/drawing/files.hpp"
#include "stakewright/drawing/text.hpp"
#include "stakewright/forms/pictures.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::draw {
namespace {

using forms::Picture;

struct Drawn {
  std::vector<Picture> pictures;
  std::vector<std::string> remarks;
};

/// The corners to draw the roof over; none where nobody should cut by what was found.
std::optional<roof::FoundCorners> corners_for_roof(const check::Findings& findings,
                                                   std::vector<std::string>& remarks) {
  if (findings.verdict != check::Verdict::contradiction) return check::found_for_roof(findings);
  remarks.emplace_back("the readings contradict each other, so the roof is drawn as planned");
  return std::nullopt;
}

Drawn roof_of(const Options& options, const job::Job& job, const wording::Wording& wording,
              const forms::PictureChoices& choices) {
  if (!job.has_roof)
    throw base::InputError(
        fmt::format("{}: a roof is drawn from a [roof] table; there is none", options.job));
  Drawn drawn;
  std::optional<roof::FoundCorners> found;
  if (!options.readings.empty())
    found = corners_for_roof(findings_of(options, job, rows_of(options, job)), drawn.remarks);
  const roof::Carry carry =
      roof::carry(job.plan, job.plate_offset_m, job.roof, job.tolerance, found);
  drawn.pictures = forms::roof_pictures(job, carry, found, options.drawing, wording, choices);
  return drawn;
}

Drawn drawn_of(const Options& options, const job::Job& job, const wording::Wording& wording) {
  const base::Units units = options.units.value_or(job.units);
  const forms::PictureChoices choices{units, options.paper.value_or(forms::usual_paper(units))};
  switch (options.what) {
    case What::check:
      return {forms::found_pictures(job, findings_of(options, job, rows_of(options, job)), wording,
                                    choices),
              {}};
    case What::carry:
      return roof_of(options, job, wording, choices);
    default:
      return {forms::plan_pictures(job, results::layout_of(job), wording, choices), {}};
  }
}

/// The one of that name; without a name the first.
const Picture& chosen(const std::vector<Picture>& pictures, const std::string& name) {
  if (name.empty()) return pictures.front();
  const auto found = std::find_if(pictures.begin(), pictures.end(),
                                  [&name](const Picture& picture) { return picture.name == name; });
  if (found != pictures.end()) return *found;
  std::vector<std::string> names;
  for (const Picture& picture : pictures) names.push_back(picture.name);
  throw base::InputError(fmt::format("--drawing: read {}; accepted here: {}", base::in_quotes(name),
                                     fmt::join(names, ", ")));
}

std::string bytes_of(const Options& options, const std::string& title,
                     const std::vector<Picture>& pictures) {
  const std::string ending = job::ending_of(options.output);
  if (ending == ".svg") return drawing::svg(chosen(pictures, options.drawing).page);
  if (ending == ".png")
    return drawing::png(chosen(pictures, options.drawing).page, options.width_px);
  if (ending != ".pdf") {
    throw base::InputError(fmt::format("-o: read {}; a drawing is written as .pdf, .svg or .png",
                                       base::in_quotes(options.output)));
  }
  std::vector<drawing::Page> pages;
  if (!options.drawing.empty()) {
    pages.push_back(chosen(pictures, options.drawing).page);
  } else {
    for (const Picture& picture : pictures) pages.push_back(picture.page);
  }
  return drawing::pdf(pages, title);
}

}  // namespace

std::vector<std::string> write_pictures(const Options& options) {
  const job::Job job = job::read_job(options.job);
  const wording::Chosen words = wording::chosen(options.language, options.forms);
  const Drawn drawn = drawn_of(options, job, words.wording);
  job::write_file(options.output, bytes_of(options, job.title, drawn.pictures));
  std::vector<std::string> remarks = words.remarks;
  for (const auto& more : {drawn.remarks, remarks_on_the_face()})
    remarks.insert(remarks.end(), more.begin(), more.end());
  return remarks;
}

std::vector<std::string> remarks_on_the_face() {
  if (drawing::face_is_installed()) return {};
  return {fmt::format(
      "the face {} is not installed (package fonts-dejavu-core); what is drawn is set in another",
      drawing::kFace)};
}

}  // namespace stakewright::draw
