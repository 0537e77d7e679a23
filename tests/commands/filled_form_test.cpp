// The form out and back through the built command, filled in by other people's programs.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "jobs.hpp"
#include "run_command.hpp"

namespace stakewright::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

/// Field names and what is typed there.
using Typed = std::map<std::string, std::string>;

/// Rows of a readings file without their header.
std::vector<std::string> rows_of(const std::string& csv) {
  std::istringstream lines(csv);
  std::vector<std::string> rows;
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) rows.push_back(line);
  return rows;
}

/// A job, its empty form, and ways to fill that in.
class FilledForm : public testing::Test {
 protected:
  FilledForm() {
    site.write("job.toml", hexagon_job());
    make_form("job.toml", "form.pdf");
  }

  void make_form(const std::string& job, const std::string& form,
                 const std::vector<std::string>& more = {}) {
    std::vector<std::string> words{"form", job, "-o", form, "--tapes", "all"};
    words.insert(words.end(), more.begin(), more.end());
    const Finished run = site.stakewright(words);
    ASSERT_EQ(run.status, 0) << run.err;
  }

  /// Fills in form.pdf with a program of Debian's.
  void fill(const std::string& program, const Typed& typed, const std::string& more = "",
            const std::string& form = "form.pdf") {
    std::string lines;
    for (const auto& [name, text] : typed) lines += fmt::format("{}\t{}\n", name, text);
    site.write("typed.txt", lines);
    const Finished run =
        site.shell(fmt::format("{} {}/fill_form.py {} {} filled.pdf {} < typed.txt",
                               STAKEWRIGHT_PYTHON, STAKEWRIGHT_COMMANDS_DIR, program, form, more));
    ASSERT_EQ(run.status, 0) << run.err;
  }

  /// The readings of a crew as they are typed, and the same as CSV in the order of the form.
  void type(const std::string& csv, Typed& typed, std::string& in_form_order) {
    std::map<std::string, std::string> by_pair;
    for (const std::string& row : rows_of(csv)) {
      const std::size_t last = row.rfind(',');
      std::string pair = row.substr(0, last);
      pair[pair.find(',')] = '-';
      by_pair[pair] = row.substr(last + 1);
    }
    in_form_order = "from,to,reading\n";
    std::istringstream names(site.shell("qpdf --json form.pdf --json-key=acroform | grep "
                                        "'\"fullname\": \"reading:' | cut -d'\"' -f4")
                                 .out);
    for (std::string name; std::getline(names, name);) {
      if (!name.ends_with(":1") || name.starts_with("reading:s")) continue;
      const std::string pair = name.substr(8, name.size() - 10);
      const std::string turned = fmt::format("{}-{}", pair[2], pair[0]);
      const auto found = by_pair.count(pair) > 0 ? by_pair.find(pair) : by_pair.find(turned);
      ASSERT_NE(found, by_pair.end()) << name;
      typed[name] = found->second;
      in_form_order += fmt::format("{},{},{}\n", pair[0], pair[2], found->second);
    }
    ASSERT_EQ(typed.size(), by_pair.size());
  }

  [[nodiscard]] Finished check() const {
    return site.stakewright({"check", "job.toml", "filled.pdf", "--json"});
  }

  void expect_refused(const std::vector<std::string>& message,
                      const std::vector<std::string>& commands = {"check"}) {
    const auto before = site.names();
    for (const std::string& command : commands) {
      const Finished run = site.stakewright({command, "job.toml", "filled.pdf"});
      EXPECT_EQ(run.status, 2) << command;
      EXPECT_THAT(run.out, IsEmpty()) << command;
      EXPECT_THAT(run.err, HasSubstr("filled.pdf"));
      for (const std::string& part : message) EXPECT_THAT(run.err, HasSubstr(part)) << command;
    }
    EXPECT_EQ(site.names(), before);
  }

  const Site site;
};

TEST_F(FilledForm, GivesTheFindingsOfTheSameReadingsAsCsv) {
  Typed typed;
  std::string csv;
  type(hexagon_readings('D', 0.0254), typed, csv);
  site.write("readings.csv", csv);
  const Finished expected = site.stakewright({"check", "job.toml", "readings.csv", "--json"});
  ASSERT_EQ(expected.status, 1);
  for (const char* program : {"pypdf", "poppler"}) {
    fill(program, typed, "--tick set:C");
    const Finished run = check();
    EXPECT_EQ(run.status, 1) << program << run.err;
    EXPECT_EQ(run.out, expected.out) << program;
    EXPECT_THAT(run.err, IsEmpty()) << program;
  }
  EXPECT_EQ(json::parse(expected.out)["moves"][0]["stake"], "D");
}

TEST_F(FilledForm, IsReadByEveryCommandThatTakesReadings) {
  Typed typed;
  std::string csv;
  type(hexagon_readings(), typed, csv);
  site.write("readings.csv", csv);
  fill("poppler", typed);
  for (const char* command : {"check", "tapes", "carry"}) {
    const Finished expected = site.stakewright({command, "job.toml", "readings.csv", "--json"});
    const Finished run = site.stakewright({command, "job.toml", "filled.pdf", "--json"});
    EXPECT_EQ(run.status, expected.status) << command << run.err;
    EXPECT_EQ(run.out, expected.out) << command;
  }
}

TEST_F(FilledForm, ShowsWhatWasTypedWhenItIsDrawn) {
  fill("poppler", {{"reading:A-B:1", "9' 2-7/8\""}, {"note:A-B", "wind"}});
  const Finished text = site.shell("pdftotext -layout filled.pdf - ; qpdf --check filled.pdf");
  EXPECT_THAT(text.out, AllOf(HasSubstr("9' 2-7/8\""), HasSubstr("wind"),
                              HasSubstr("No syntax or stream encoding errors found")));
}

TEST_F(FilledForm, TakesASecondReadingTheTapeTheMarkAndTheNote) {
  fill("pypdf", {{"tape:1", "steel"},
                 {"tape:2", "laser"},
                 {"reading:A-B:1", "10 2-7/8"},
                 {"reading:A-B:2", "10' 2-15/16\""},
                 {"burned:A-B", "1ft"},
                 {"reading:A-C:1", "16-0"},
                 {"instrument:A-C", "2"},
                 {"note:A-C", "over the hedge"}});
  const Finished run = check();
  ASSERT_NE(run.status, 2) << run.err;
  const json readings = json::parse(run.out)["readings"];
  ASSERT_EQ(readings.size(), 3U);
  // 1 in = 0.0254 m exactly.
  EXPECT_NEAR(readings[0]["reading"].get<double>(), (122.0 + 7.0 / 8.0) * 0.0254, 1e-9);
  EXPECT_NEAR(readings[1]["reading"].get<double>(), (122.0 + 15.0 / 16.0) * 0.0254, 1e-9);
  EXPECT_NEAR(readings[0]["corrected"].get<double>(), (110.0 + 7.0 / 8.0) * 0.0254, 1e-9);
  EXPECT_EQ(readings[2]["kind"], "laser");
  EXPECT_THAT(run.err, HasSubstr("name no tape and are taken as pulled with tape 1"));
}

TEST_F(FilledForm, InOtherUnitsThanTheJobsMeansWhatItsBlanksSay) {
  make_form("job.toml", "metric.pdf", {"--units", "mm"});
  fill("poppler", {{"reading:A-B:1", "2816"}}, "", "metric.pdf");
  const Finished run = check();
  ASSERT_NE(run.status, 2) << run.err;
  EXPECT_NEAR(json::parse(run.out)["readings"][0]["reading"].get<double>(), 2.816, 1e-9);
}

TEST_F(FilledForm, WithNothingTypedSaysSoAndAsksForTapes) {
  fill("pypdf", {{"date", "today"}}, "--tick set:C");
  site.write("empty.csv", "from,to,reading\n");
  const Finished expected = site.stakewright({"check", "job.toml", "empty.csv", "--json"});
  const Finished run = check();
  EXPECT_EQ(run.status, expected.status);
  EXPECT_EQ(run.out, expected.out);
  EXPECT_THAT(run.err, HasSubstr("no reading is filled in"));
}

TEST_F(FilledForm, IsKnownByItsContentWhateverItIsCalled) {
  fill("poppler", {{"reading:A-B:1", "2816mm"}});
  std::filesystem::copy(site.path("filled.pdf"), site.path("from the foreman.csv"));
  EXPECT_EQ(site.stakewright({"check", "job.toml", "from the foreman.csv"}).status, 3);
}

TEST_F(FilledForm, MayHaveANameThatLooksLikeAnOption) {
  fill("poppler", {{"reading:A-B:1", "2816mm"}});
  std::filesystem::copy(site.path("filled.pdf"), site.path("--help"));
  std::filesystem::copy(site.path("job.toml"), site.path("-job.toml"));
  for (const std::string command : {"check", "carry"})
    EXPECT_EQ(site.stakewright({command, "--", "-job.toml", "--help"}).status, 3) << command;
  EXPECT_EQ(site.stakewright({"check", "-o", "found.svg", "--", "-job.toml", "--help"}).status, 3);
  EXPECT_TRUE(site.has("found.svg"));
}

TEST_F(FilledForm, WithRubbishIsRefusedByField) {
  fill("poppler", {{"reading:A-B:1", "abc"}});
  expect_refused({"field reading.A-B.1", "read \"abc\"", "accepted: a length such as"},
                 {"check", "tapes", "carry"});
  fill("poppler", {{"reading:A-B:1", "10ft"}, {"burned:A-B", "eleven"}});
  expect_refused({"field burned.A-B", "\"eleven\""});
  fill("poppler", {{"reading:A-B:1", "10ft"}, {"instrument:A-B", "rope"}});
  expect_refused({"field instrument.A-B", "\"rope\"", "steel"});
  fill("poppler", {{"reading:s1:1", "10ft"}, {"hold:s1", "A"}});
  expect_refused({"field to.s1", "read \"\"", "accepted: A, B"});
}

TEST_F(FilledForm, OfAnotherStateOfTheJobIsRefusedAndSaysWhatChanged) {
  fill("pypdf", {{"reading:A-B:1", "9-3"}});
  site.write("job.toml", hexagon_job_with_plan("sides = 6\nacross_flats = \"16ft 6in\"\n"));
  expect_refused({"size was across_flats 16ft, now across_flats 16ft 6in", "fingerprint"});
  site.write("job.toml", hexagon_job_with_plan("sides = 8\nacross_flats = \"16ft\"\n") +
                             "[site]\nhold = [\"A\"]\n");
  expect_refused({"sides was 6, now 8", "hold was none, now A"});
}

TEST_F(FilledForm, PrintedFlatOrNotOursIsRefused) {
  ASSERT_EQ(site.shell("pdftocairo -pdf form.pdf filled.pdf").status, 0);
  expect_refused({"no form fields", "flattened"});
  site.write("not_ours.py",
             "from pypdf import PdfReader, PdfWriter\n"
             "from pypdf.generic import ArrayObject, NameObject\n"
             "writer = PdfWriter()\n"
             "writer.clone_document_from_reader(PdfReader('form.pdf'))\n"
             "for page in writer.pages:\n"
             "    marks = [m for m in page['/Annots'] if '/Parent' not in m.get_object()]\n"
             "    page[NameObject('/Annots')] = ArrayObject(marks)\n"
             "form = writer._root_object['/AcroForm']\n"
             "form[NameObject('/Fields')] = ArrayObject(\n"
             "    [f for f in form['/Fields'] if f.get_object()['/T'] != 'stakewright'])\n"
             "writer.write('filled.pdf')\n");
  ASSERT_EQ(site.shell(STAKEWRIGHT_PYTHON " not_ours.py").status, 0);
  expect_refused({"no form that stakewright made"});
}

TEST_F(FilledForm, WithARenamedFieldIsRefusedByItsName) {
  fill("pypdf", {{"reading:A-B:1", "9-3"}});
  ASSERT_EQ(site.shell("qpdf --qdf --object-streams=disable filled.pdf edited.pdf && "
                       "sed 's/(reading:A-B:1)/(Text1)/' edited.pdf > broken.pdf && "
                       "fix-qdf broken.pdf > filled.pdf")
                .status,
            0);
  expect_refused({"field \"Text1\"", "\"9-3\"", "not made with"});
}

TEST_F(FilledForm, LockedCutShortOrTooLargeIsRefused) {
  ASSERT_EQ(site.shell("qpdf --encrypt secret owner 256 -- form.pdf filled.pdf").status, 0);
  expect_refused({"needs a password"});
  ASSERT_EQ(site.shell("head -c 20000 form.pdf > filled.pdf").status, 0);
  expect_refused({"damaged or cut short"});
  ASSERT_EQ(site.shell("cp form.pdf filled.pdf && truncate -s 200M filled.pdf").status, 0);
  expect_refused({"larger than 16 MB"});
}

TEST_F(FilledForm, WithAScriptIsReadAndTheScriptIsLeftAlone) {
  site.write("script.py",
             "from pypdf import PdfReader, PdfWriter\n"
             "writer = PdfWriter()\n"
             "writer.clone_document_from_reader(PdfReader('form.pdf'))\n"
             "writer.add_js('app.alert(1)')\n"
             "writer.update_page_form_field_values(writer.pages[2], {'reading:A-B:1': '9-3'})\n"
             "writer.write('filled.pdf')\n");
  ASSERT_EQ(site.shell(STAKEWRIGHT_PYTHON " script.py").status, 0);
  const Finished run = check();
  EXPECT_EQ(run.status, 3) << run.err;
  EXPECT_THAT(run.err, HasSubstr("has scripts or actions; none of them was run"));
}

TEST_F(FilledForm, ThatUnpacksWithoutEndIsRefusedInTimeAndWithinBounds) {
  // 3 MB as the stream that holds the file's objects; 3 GB when unpacked.
  site.write("bomb.py", R"py(
import zlib
packer = zlib.compressobj(9)
block = packer.compress(b' ' * 2**20) + packer.flush(zlib.Z_FULL_FLUSH)
body = block + block[2:] * 2999  # the two bytes are the stream's head (RFC 1950)
out = bytearray(b'%PDF-1.5\n')
at = {}
def add(number, head, stream=None):
    at[number] = len(out)
    out.extend(b'%d 0 obj\n' % number + head)
    if stream is not None:
        out.extend(b'\nstream\n' + stream + b'\nendstream')
    out.extend(b'\nendobj\n')
add(3, b'<</Type/ObjStm/N 2/First 10/Filter/FlateDecode/Length %d>>' % len(body), body)
at[4] = len(out)
def row(kind, a, b): return bytes([kind]) + a.to_bytes(4, 'big') + bytes([b])
rows = row(0, 0, 255) + row(2, 3, 0) + row(2, 3, 1) + row(1, at[3], 0) + row(1, at[4], 0)
add(4, b'<</Type/XRef/Size 5/W[1 4 1]/Root 1 0 R/Length %d>>' % len(rows), rows)
out.extend(b'startxref\n%d\n%%%%EOF\n' % at[4])
open('filled.pdf', 'wb').write(out)
)py");
  ASSERT_EQ(site.shell(STAKEWRIGHT_PYTHON " bomb.py").status, 0);
  const Finished run = check();
  EXPECT_EQ(run.status, 2);
  EXPECT_THAT(run.err,
              AllOf(StartsWith("stakewright: filled.pdf"), Not(HasSubstr("fault of the program"))));
}

TEST_F(FilledForm, IsSoundByAnotherProgramsChecker) {
  const Finished run = site.shell("qpdf --check form.pdf && pdfinfo form.pdf");
  EXPECT_EQ(run.status, 0) << run.out;
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("No syntax or stream encoding errors found"),
                    HasSubstr("Form:            AcroForm"), HasSubstr("JavaScript:      no")));
}

}  // namespace
}  // namespace stakewright::tests
