// The program beside `stakewright` that draws: it alone loads the drawing libraries.
//
// It is the same command with a painter.  In another process of it, apart from everything else, a
// filled form is read, which somebody outside may have made.
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <exception>
#include <string_view>

#include "commands.hpp"
#include "console.hpp"
#include "draw_program.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/drawing/files.hpp"
#include "stakewright/drawing/text.hpp"
#include "stakewright/fields/filled.hpp"
#include "stakewright/forms/field_form.hpp"
#include "stakewright/forms/form_file.hpp"
#include "stakewright/forms/pictures.hpp"
#include "stakewright/forms/reading_rows.hpp"
#include "stakewright/job/file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/results/layout.hpp"
#include "stakewright/wording/voice.hpp"

namespace {

using namespace stakewright;
using base::Fact;
using cli::Options;
using cli::Painted;
using forms::Picture;

constexpr int kUsualWidth_px = 1200;

// Drawings

/// How a drawing is shown.
struct Shown {
  wording::Voice voice;
  forms::Paper paper;
  std::string language;
  std::vector<std::string> remarks;  ///< on the words
};

Shown shown_of(const Options& options, const job::Job& job) {
  const base::Units units = options.units.value_or(job.units);
  const std::string language =
      options.language.empty() ? wording::kUsualLanguage : options.language;
  wording::Chosen words = wording::chosen(language, options.forms);
  return {{std::move(words.wording), units},
          options.paper.empty() ? forms::usual_paper(units) : forms::paper_from_text(options.paper),
          language,
          std::move(words.remarks)};
}

/// The bytes, with remarks on the words and the face that they are set in.
Painted painted(std::string bytes, const Shown& shown) {
  Painted result{std::move(bytes), shown.remarks};
  if (!drawing::face_is_installed())
    result.remarks.push_back(
        shown.voice.text(Fact{"drawing.no_face", {{"face", base::Name{drawing::kFace}}}}));
  return result;
}

/// The one of that name; without a name the first.
const Picture& chosen(const std::vector<Picture>& pictures, const std::string& name) {
  if (name.empty()) return pictures.front();
  const auto found = std::find_if(pictures.begin(), pictures.end(),
                                  [&name](const Picture& picture) { return picture.name == name; });
  if (found != pictures.end()) return *found;
  std::vector<std::string> names;
  for (const Picture& picture : pictures) names.push_back(picture.name);
  throw base::InputError(Fact{"errors.drawing",
                              {{"read", base::Quoted{name}},
                               {"accepted", base::names(names, base::List::Joint::listed)}}})
      .at("--drawing");
}

std::string bytes_of(const Options& options, const std::string& title,
                     const std::vector<Picture>& pictures) {
  const std::string ending = job::ending_of(options.output);
  const Picture& one = chosen(pictures, options.drawing);
  if (ending == ".svg") return drawing::svg(one.page);
  if (ending == ".png")
    return drawing::png(one.page, options.width_px == 0 ? kUsualWidth_px : options.width_px);
  if (!options.drawing.empty()) return drawing::pdf({one.page}, title);
  std::vector<drawing::Page> pages;
  for (const Picture& picture : pictures) pages.push_back(picture.page);
  return drawing::pdf(pages, title);
}

Painted draw_plan(const Options& options, const job::Job& job,
                  const results::LayoutResult& result) {
  const Shown shown = shown_of(options, job);
  const auto pictures = forms::plan_pictures(job, result, shown.voice, shown.paper);
  return painted(bytes_of(options, job.title, pictures), shown);
}

Painted draw_found(const Options& options, const job::Job& job, const check::Findings& findings) {
  const Shown shown = shown_of(options, job);
  const auto pictures = forms::found_pictures(job, findings, shown.voice, shown.paper);
  return painted(bytes_of(options, job.title, pictures), shown);
}

Painted draw_roof(const Options& options, const job::Job& job, const results::CarryResult& result) {
  const Shown shown = shown_of(options, job);
  const auto pictures =
      forms::roof_pictures(job, result, options.drawing, shown.voice, shown.paper);
  Painted drawn = painted(bytes_of(options, job.title, pictures), shown);
  if (result.contradiction) drawn.remarks.push_back(shown.voice.text("drawing.as_planned"));
  return drawn;
}

// Forms

Painted file_of(const job::Job& job, const Shown& shown, const std::vector<drawing::Page>& pages) {
  return painted(forms::form_file(pages, job, shown.language, shown.voice), shown);
}

Painted draw_field_form(const Options& options, const job::Job& job) {
  const Shown shown = shown_of(options, job);
  const forms::ReadingRows rows =
      forms::reading_rows(job, options.tapes.empty() ? forms::usual_tapes(job.plan)
                                                     : forms::tape_set_from_text(options.tapes));
  Painted form = file_of(job, shown,
                         forms::field_form(job, results::layout_of(job), rows.tapes, shown.voice,
                                           {shown.paper, options.show_planned}));
  for (const Fact& miss : rows.misses) form.remarks.push_back(shown.voice.text(miss));
  return form;
}

Painted draw_correction_sheet(const Options& options, const job::Job& job,
                              const check::Findings& findings) {
  const Shown shown = shown_of(options, job);
  return file_of(job, shown, forms::correction_sheet(job, findings, shown.voice, shown.paper));
}

// The filled form

constexpr rlim_t kMost_bytes = 512UL * 1024UL * 1024UL;
constexpr rlim_t kMost_s = 10;

/// Only what a signal handler may do.
void say_and_end(int /*signal*/) {
  constexpr std::string_view words =
      "stakewright: the PDF takes longer to read than any form does; accepted: the form as it was "
      "made, filled in\n";
  [[maybe_unused]] const ssize_t written = write(STDERR_FILENO, words.data(), words.size());
  _exit(cli::kBadInput);
}

void limit(__rlimit_resource what, rlim_t most) {
  rlimit had{};
  if (getrlimit(what, &had) != 0) return;
  if (had.rlim_cur != RLIM_INFINITY && had.rlim_cur <= most) return;
  had.rlim_cur = most;
  setrlimit(what, &had);
}

/// From here on the process has at most so much more; a form takes a hundredth of it.  Past the
/// memory, std::bad_alloc is thrown; past the time, the process says so and ends with exit 2.
void limit_what_a_file_can_cost() {
  std::signal(SIGXCPU, say_and_end);
  limit(RLIMIT_CPU, kMost_s);
  // The address sanitizer reserves the whole address space for itself.
#ifndef __SANITIZE_ADDRESS__
  limit(RLIMIT_AS, kMost_bytes);
#endif
}

/// Prints what was typed into the blanks of a filled form, as a readings file.
int read_form(const std::string& job_path, const std::string& form_path) {
  const job::Job job = job::read_job(job_path);
  const std::string pdf = job::bytes_of_file(form_path, fields::kLargestForm);
  limit_what_a_file_can_cost();
  const forms::FormReadings form = forms::readings_on(pdf, form_path, job);
  const wording::Voice english(wording::built_in(wording::kUsualLanguage), job.units);
  for (const Fact& remark : form.remarks) cli::complain(english.text(remark));
  cli::print(job::csv_from_rows(form.rows));
  return cli::kAllInTolerance;
}

}  // namespace

int main(int argc, char** argv) {
  constexpr cli::Painter painter{draw_plan, draw_found, draw_roof, draw_field_form,
                                 draw_correction_sheet};
  if (argc == 4 && std::string_view(argv[1]) == cli::kReadForm)
    return cli::guarded([&] { return read_form(argv[2], argv[3]); });
  return cli::command(argc, argv, &painter);
}
