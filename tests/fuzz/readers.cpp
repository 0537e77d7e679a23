#include "readers.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include "stakewright/base/angle.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/quantity.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/forms/form_file.hpp"
#include "stakewright/job/job.hpp"
#include "stakewright/job/readings_file.hpp"
#include "stakewright/levels/levels.hpp"
#include "stakewright/readings/observation.hpp"

namespace stakewright::fuzz {
namespace {

// A refusal is a line or two on a terminal, whatever was read.
constexpr std::size_t kLongestRefusal = 1000;

template <typename Act>
std::string fault_of(Act act) {
  try {
    return act();
  } catch (const base::InputError& error) {
    const std::string words = error.what();
    if (words.empty() || words.size() > kLongestRefusal)
      return "refused at the wrong length: " + words;
    if (!base::is_printable(words)) return "refused in words that cannot be printed";
    return "";
  }
}

bool in_length(double value_m) { return std::abs(value_m) <= base::kLongestLength_m; }

bool is_chance(double value) { return value > 0.0 && value < 1.0; }

bool is_sane(const layout::Plan& plan) {
  const layout::Polygon& polygon = plan.polygon;
  bool sane = polygon.sides >= layout::kFewestSides && polygon.sides <= layout::kMostSides &&
              polygon.corner_radius_m > 0.0 && in_length(polygon.corner_radius_m) &&
              std::isfinite(plan.facing_rad) && in_length(norm_m(plan.center) / 2.0);
  for (const layout::Line& line : plan.lines)
    sane = sane && layout::parallel(polygon, line.offset_m).corner_radius_m > 0.0;
  for (const layout::KeepClear& outline : plan.keep_clear)
    sane = sane && outline.outline.size() >= 3;
  return sane;
}

bool is_sane(const job::Job& job) {
  bool sane = is_sane(job.plan) && job.tolerance.corner_m > 0.0 && job.tolerance.level_m > 0.0 &&
              job.tolerance.part_m > 0.0 && job.tolerance.confidence >= 0.5 &&
              job.tolerance.confidence < 1.0 && job.staking.spread_m > 0.0 &&
              is_chance(job.staking.misread) && is_chance(job.staking.misplaced);
  for (const readings::Instrument& instrument : job.instruments)
    sane = sane && readings::standard_deviation_m(instrument, 1.0) > 0.0;
  return sane && (!job.has_roof || (job.roof.pitch > 0.0 && job.roof.spacing_m > 0.0));
}

/// A PDF changed and written again; plain when its objects are not packed.
std::string rewritten(const std::string& pdf, qpdf_object_stream_e objects,
                      const std::function<void(QPDF&)>& change) {
  QPDF document;
  document.processMemoryFile("form", pdf.data(), pdf.size());
  change(document);
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.setStaticID(true);
  writer.setObjectStreamMode(objects);
  if (objects == qpdf_o_disable) writer.setStreamDataMode(qpdf_s_uncompress);
  writer.write();
  const auto bytes = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

const job::Job& known_job() {
  static const job::Job job = job::job_from_text(good_job(), "job.toml");
  return job;
}

std::vector<std::string> known_points() {
  std::vector<std::string> points = layout::corner_labels(known_job().plan.polygon.sides);
  points.emplace_back(layout::kCenterLabel);
  for (const layout::Pin& pin : known_job().plan.pins) points.push_back(pin.name);
  return points;
}

std::vector<base::Point> known_places() {
  std::vector<base::Point> places;
  for (const layout::Stake& stake : layout::stakes(known_job().plan)) places.push_back(stake.at);
  places.push_back(known_job().plan.center);
  for (const layout::Pin& pin : known_job().plan.pins) places.push_back(pin.at);
  return places;
}

/// Rods read are judged without a crash, and a chance is a chance.
bool levels_are_sane(const std::vector<readings::Reading>& read) {
  const job::Job& job = known_job();
  const auto levels =
      levels::judge({job.plan, job.tolerance, job.staking, job.levels, job.instruments, read});
  if (!levels) return true;
  return std::all_of(levels->footings.begin(), levels->footings.end(), [](const auto& footing) {
    return footing.chance_in >= 0.0 && footing.chance_in <= 1.0 + 1e-9;
  });
}

/// Rod readings are leveled, not adjusted in the plan.
std::vector<readings::Reading> in_plan(std::vector<readings::Reading> read) {
  std::erase_if(
      read, [](const readings::Reading& reading) { return reading.kind == readings::Kind::level; });
  return read;
}

}  // namespace

std::string fault_of_job_reader(std::string_view text) {
  return fault_of([text] {
    return is_sane(job::job_from_text(text, "job.toml")) ? "" : "took a job that cannot be";
  });
}

std::string fault_of_readings_reader(std::string_view text) {
  return fault_of([text]() -> std::string {
    const auto read = job::readings_from_text(text, "readings.csv", known_job());
    try {
      const auto made = readings::observations(in_plan(read), known_job().instruments,
                                               known_points(), known_places());
      for (const readings::Observation& observation : made)
        if (!(observation.corrected > 0.0 && observation.sd > 0.0))
          return "took a reading of nothing";
      if (!levels_are_sane(read)) return "took rods that cannot be";
    } catch (const base::InputError& error) {
      return std::string("took readings that cannot be used: ") + error.what();
    }
    return "";
  });
}

std::string fault_of_length_reader(std::string_view text) {
  using base::Units;
  for (const Units units : {Units::feet_inches, Units::millimeters, Units::meters}) {
    const std::string fault = fault_of([&] {
      return in_length(base::length_m_from_text(text, units)) ? "" : "took a length past the limit";
    });
    if (!fault.empty()) return fault;
  }
  const std::string pitch =
      fault_of([&] { return base::pitch_from_text(text) > 0.0 ? "" : "took a pitch of nothing"; });
  if (!pitch.empty()) return pitch;
  return fault_of([&] {
    const double pull_n = base::quantity_from_text(text, base::Quantity::pull);
    return std::isnan(pull_n) ? "took no number" : "";
  });
}

std::string fault_of_form_reader(std::string_view bytes) {
  return fault_of([bytes]() -> std::string {
    const forms::FormReadings form = forms::readings_on(bytes, "form.pdf", known_job());
    if (form.rows.size() != form.readings.size()) return "took rows without readings";
    for (const readings::Reading& reading : form.readings)
      if (!(reading.value_m > 0.0)) return "took a reading of nothing";
    // What it takes the readings reader takes as well.
    job::readings_from_text(job::csv_from_rows(form.rows), "form.pdf", known_job());
    return "";
  });
}

std::string good_job() {
  return job::starter_job() + R"toml(
[[site.pin]]
name = "P1"
at = ["-12ft", "-10ft"]
[[site.keep_clear]]
name = "hedge"
keep = "inside"
of = [["-20ft", "-20ft"], ["20ft", "-20ft"], ["20ft", "20ft"]]
[[instrument]]
name = "blue tape"
kind = "tape"
constant = "1/16in"
nominal = "100ft"
actual = "99.98ft"
expansion = "6.45e-6/F"
standard_pull = "12lbf"
section = "0.0075in2"
modulus = "29e6psi"
weight = "0.028lbf/ft"
)toml";
}

std::string good_readings() {
  return "# crew of three, dry\n"
         "kind,from,to,reading,instrument,round,temperature,pull,burned,slope,supports,note\n"
         "tape,A,C,13-10-1/4,steel,1,95F,20lbf,1ft,2in,,\n"
         "tape,B,D,\"13' 10-1/4\"\"\",blue tape,1,35,80N,,,2,\"wind, slack\"\n"
         "laser,O,B,2.818m,laser,1,,,,,,from the pin\n"
         "level,L1,A,1.203m,level,1,,,,,,\n"
         "level,L1,T1,4-2-1/2,rotating laser,1,,,,,,turning point\n"
         ",P1,F,3766mm,,2,,,,,,\n";
}

std::string good_form() {
  drawing::Page page;
  page.blanks = {{"date", {50, 60, 120, 20}, drawing::BlankKind::text},
                 {"set.C", {300, 60, 14, 14}, drawing::BlankKind::tick},
                 {"reading.A-C.1", {40, 200, 80, 23}, drawing::BlankKind::text},
                 {"reading.O-B.1", {40, 223, 80, 23}, drawing::BlankKind::text},
                 {"instrument.O-B", {120, 223, 40, 23}, drawing::BlankKind::text}};
  const wording::Voice voice(wording::built_in("en"), base::Units::feet_inches);
  const std::string empty = forms::form_file({page}, known_job(), "en", voice);
  return rewritten(empty, qpdf_o_generate, [](QPDF& document) {
    const auto type = [&document](const std::string& name, const std::string& text) {
      for (QPDFObjectHandle field :
           document.getRoot().getKey("/AcroForm").getKey("/Fields").getArrayAsVector())
        if (field.getKey("/T").getUTF8Value() == name)
          field.replaceKey("/V", QPDFObjectHandle::newUnicodeString(text));
    };
    type("reading:A-C:1", "13-10-1/4");
    type("reading:O-B:1", "2.818m");
    type("instrument:O-B", "laser");
  });
}

std::string good_plain_form() {
  return rewritten(good_form(), qpdf_o_disable, [](QPDF&) {});
}

}  // namespace stakewright::fuzz
