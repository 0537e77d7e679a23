#include "language.hpp"

#include <fmt/format.h>

#include "stakewright/base/error.hpp"
#include "stakewright/wording/phrases.hpp"
#include "stakewright/wording/wording.hpp"

namespace stakewright::cli {
namespace {

struct Spoken {
  std::string language = wording::kUsualLanguage;
  wording::Phrases phrases;
};

Spoken& spoken() {
  static Spoken one;
  return one;
}

std::vector<std::string> names_of(const Options& options, const job::Job& job) {
  std::vector<std::string> names{job.title,           options.job,      options.readings,
                                 options.output,      options.language, options.with,
                                 options.temperature, options.pull};
  if (job.plan.measured_to != layout::Plan{}.measured_to) names.push_back(job.plan.measured_to);
  for (const auto& pin : job.plan.pins) names.push_back(pin.name);
  for (const auto& line : job.plan.lines) names.push_back(line.name);
  for (const auto& outline : job.plan.keep_clear) names.push_back(outline.name);
  for (const auto& instrument : job.instruments) names.push_back(instrument.name);
  return names;
}

// From here on the report speaks the language of the options.  JSON is the same in every language.
void speak(const Options& options, const job::Job& job) {
  if (options.json || options.language.empty() || options.language == wording::kUsualLanguage)
    return;
  Spoken& now = spoken();
  now.language = options.language;
  const auto pairs = base::read_at(
      "--language", [&] { return wording::phrases_in(options.language, options.forms); });
  now.phrases = wording::Phrases(pairs, names_of(options, job));
}

}  // namespace

job::Job job_of(const Options& options) {
  job::Job job = job::read_job(options.job);
  speak(options, job);
  return job;
}

wording::Voice voice_of(const Options& options, const job::Job& job) {
  const std::string language =
      options.language.empty() ? wording::kUsualLanguage : options.language;
  return {wording::chosen(language, options.forms).wording, options.units.value_or(job.units)};
}

wording::Voice json_voice_of(const job::Job& job) {
  return {wording::built_in(wording::kUsualLanguage), job.units};
}

void keep_names(const std::vector<readings::Reading>& readings) {
  for (const readings::Reading& reading : readings)
    spoken().phrases.keep({reading.round, reading.from, reading.to, reading.note});
}

std::string in_language(std::string_view english) { return spoken().phrases.said(english); }

std::vector<std::string> in_language(const std::vector<std::string>& english) {
  std::vector<std::string> said;
  for (const std::string& text : english) said.push_back(in_language(text));
  return said;
}

std::string untranslated_remark() {
  const auto& missing = spoken().phrases.missing();
  if (missing.empty()) return "";
  const std::string count = missing.size() == 1
                                ? "1 phrase of the report stands"
                                : fmt::format("{} phrases of the report stand", missing.size());
  const std::string first = *missing.begin();
  const std::string how_many = in_language(
      fmt::format("{} in English, having no words in {}; the first:", count, spoken().language));
  return how_many + ' ' + first;
}

}  // namespace stakewright::cli
