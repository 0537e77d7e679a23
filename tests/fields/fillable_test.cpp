// The form with its fields, as a viewer sees it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "documents.hpp"

namespace stakewright::fields {
namespace {

using Handle = QPDFObjectHandle;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

class Fillable : public testing::Test {
 protected:
  Fillable() : bytes_(two_page_form()) {
    document_.processMemoryFile("form", bytes_.data(), bytes_.size());
  }

  std::vector<Handle> fields_on(std::size_t page) {
    Handle sheet = document_.getAllPages().at(page);
    return sheet.getKey("/Annots").getArrayAsVector();
  }

  std::string bytes_;
  QPDF document_;
};

TEST_F(Fillable, HasAFieldForEveryBlankInTheOrderOfTheBlanks) {
  std::vector<std::string> names;
  for (Handle field : fields_on(1))
    if (field.hasKey("/T")) names.push_back(field.getKey("/T").getUTF8Value());
  EXPECT_THAT(names, ElementsAre("reading:A-C:1", "reading:A-C:2"));
  EXPECT_TRUE(field_in(document_, "date").getKey("/FT").isNameAndEquals("/Tx"));
  EXPECT_TRUE(field_in(document_, "set:C").getKey("/FT").isNameAndEquals("/Btn"));
}

TEST_F(Fillable, PutsEachFieldWhereItsBlankIsDrawn) {
  const auto pages = two_pages();
  for (std::size_t i = 0; i < pages.size(); ++i) {
    for (const drawing::Blank& blank : pages[i].blanks) {
      const Handle::Rectangle rect =
          field_in(document_, field_name(blank.name)).getKey("/Rect").getArrayAsRectangle();
      // A text field lies 3/4 pt within its blank, off the rules that frame it; numbers in the
      // file have three decimals.
      const double inset = blank.kind == drawing::BlankKind::tick ? 0.0 : 0.75;
      EXPECT_NEAR(rect.llx, blank.box.x_pt + inset, 0.001) << blank.name;
      EXPECT_NEAR(rect.urx, blank.box.right_pt() - inset, 0.001) << blank.name;
      EXPECT_NEAR(pages[i].height_pt - rect.ury, blank.box.y_pt + inset, 0.001) << blank.name;
      EXPECT_NEAR(pages[i].height_pt - rect.lly, blank.box.bottom_pt() - inset, 0.001)
          << blank.name;
    }
  }
}

TEST_F(Fillable, SaysOfEachFieldWhatItIsFor) {
  EXPECT_EQ(field_in(document_, "reading:A-C:1").getKey("/TU").getUTF8Value(),
            "hint for reading.A-C.1");
  EXPECT_EQ(document_.getRoot().getKey("/Lang").getUTF8Value(), "en");
}

TEST_F(Fillable, LooksLikeThePrintedPageUntilSomethingIsTyped) {
  Handle form = document_.getRoot().getKey("/AcroForm");
  // A viewer that had to draw the fields anew would hide the units printed under them.
  EXPECT_FALSE(form.hasKey("/NeedAppearances"));
  Handle field = field_in(document_, "reading:A-C:1");
  Handle shown = field.getKey("/AP").getKey("/N");
  ASSERT_TRUE(shown.isStream());
  const auto data = shown.getStreamData();
  const std::string marks(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
  EXPECT_EQ(marks, "/Tx BMC\nEMC\n");
  EXPECT_NE(shown.getObjGen(),
            field_in(document_, "reading:A-C:2").getKey("/AP").getKey("/N").getObjGen());
}

TEST_F(Fillable, HasAFontForWhatIsTyped) {
  Handle form = document_.getRoot().getKey("/AcroForm");
  EXPECT_THAT(form.getKey("/DA").getStringValue(), HasSubstr("/Helv"));
  Handle fonts = form.getKey("/DR").getKey("/Font");
  EXPECT_TRUE(fonts.getKey("/Helv").getKey("/BaseFont").isNameAndEquals("/Helvetica"));
  EXPECT_TRUE(fonts.getKey("/ZaDb").getKey("/BaseFont").isNameAndEquals("/ZapfDingbats"));
  EXPECT_EQ(field_in(document_, "date").getKey("/DA").getStringValue(), "/Helv 11 Tf 0 g");
}

TEST_F(Fillable, HasABoxThatCanBeTicked) {
  Handle box = field_in(document_, "set:C");
  EXPECT_TRUE(box.getKey("/AS").isNameAndEquals("/Off"));
  EXPECT_THAT(box.getKey("/AP").getKey("/N").getKeys(), ElementsAre("/Off", "/Yes"));
  QPDFAcroFormDocumentHelper forms(document_);
  QPDFFormFieldObjectHelper tick(box);
  EXPECT_TRUE(tick.isCheckbox());
  tick.setV(Handle::newName("/Yes"));
  EXPECT_TRUE(box.getKey("/AS").isNameAndEquals("/Yes"));
}

TEST_F(Fillable, KeepsItsRecordOnEveryPageOutOfSightAndOutOfReach) {
  Handle record = field_in(document_, kRecordField);
  EXPECT_EQ(record.getKey("/V").getUTF8Value(), "record of the job");
  EXPECT_EQ(record.getKey("/Ff").getIntValue() & 1, 1);  // read only (ISO 32000-1, table 221)
  const auto places = record.getKey("/Kids").getArrayAsVector();
  ASSERT_EQ(places.size(), 2U);
  for (Handle place : places)
    EXPECT_EQ(place.getKey("/F").getIntValue() & 2, 2);  // hidden (ISO 32000-1, table 165)
}

TEST_F(Fillable, RunsNothing) {
  for (Handle object : document_.getAllObjects()) {
    if (!object.isDictionary()) continue;
    for (const char* key : {"/JS", "/AA", "/A", "/OpenAction", "/JavaScript"})
      EXPECT_FALSE(object.hasKey(key)) << key;
  }
}

TEST(FillableBytes, AreTheSameEveryTime) { EXPECT_TRUE(two_page_form() == two_page_form()); }

TEST(FillableBytes, DifferWhenTheRecordDoes) {
  EXPECT_FALSE(two_page_form("one") == two_page_form("two"));
}

}  // namespace
}  // namespace stakewright::fields
