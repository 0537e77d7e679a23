// Filled forms as other programs leave them, and files that are none.
#include "stakewright/fields/filled.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "documents.hpp"
#include "refusal.hpp"

namespace stakewright::fields {
namespace {

using Handle = QPDFObjectHandle;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

constexpr const char* kFirst = "reading:A-C:1";

std::string refused(const std::string& pdf) {
  return refusal([&] { return filled_from(pdf); });
}

TEST(Filled, GivesBackRecordAndTextsByBlank) {
  const Filled filled = filled_from(with_text(two_page_form(), kFirst, "13-10-1/4"));
  EXPECT_EQ(filled.record, "record of the job");
  EXPECT_EQ(text_of(filled, "reading.A-C.1"), "13-10-1/4");
  EXPECT_EQ(text_of(filled, "reading.A-C.2"), "");
  EXPECT_EQ(filled.fields.size(), 4U);
  EXPECT_FALSE(filled.has_actions);
}

TEST(Filled, LeavesTicksAside) {
  const Filled filled = filled_from(with_value(two_page_form(), "set:C", Handle::newName("/Yes")));
  EXPECT_EQ(text_of(filled, "set.C"), "");
}

TEST(Filled, TakesTextInEachEncodingOfThePdfStandard) {
  // ISO 32000-1, 7.9.2.2 and annex D.3; ISO 32000-2 adds UTF-8.
  const std::string utf16(
      "\xFE\xFF\x00"
      "3\x20\x32\x00 \x00m",
      10);  // "3", prime, space, "m"
  EXPECT_EQ(text_of(filled_from(with_value(two_page_form(), kFirst, Handle::newString(utf16))),
                    "reading.A-C.1"),
            "3\u2032 m");
  EXPECT_EQ(
      text_of(filled_from(with_value(two_page_form(), kFirst, Handle::newString("caf\xE9 \x84 3"))),
              "reading.A-C.1"),
      "café \u2014 3");  // 0x84 is the em dash of PDFDocEncoding
  EXPECT_EQ(text_of(filled_from(with_value(two_page_form(), kFirst,
                                           Handle::newString("\xEF\xBB\xBF"
                                                             "3\u2032"))),
                    "reading.A-C.1"),
            "3\u2032");
}

TEST(Filled, ReadsWhatAnotherProgramSetAndDrew) {
  const std::string pdf = changed(two_page_form(), [](QPDF& document) {
    QPDFAcroFormDocumentHelper forms(document);
    QPDFFormFieldObjectHelper(field_in(document, kFirst)).setV("3766");
    forms.generateAppearancesIfNeeded();
  });
  EXPECT_EQ(text_of(filled_from(pdf), "reading.A-C.1"), "3766");
}

TEST(Filled, ReadsAPageTakenOutOfTheForm) {
  const std::string pdf = changed(two_page_form(), [](QPDF& document) {
    field_in(document, kFirst).replaceKey("/V", Handle::newString("3766"));
    document.removePage(document.getAllPages().front());
    document.getRoot().removeKey("/AcroForm");
  });
  const Filled filled = filled_from(pdf);
  EXPECT_EQ(text_of(filled, "reading.A-C.1"), "3766");
  EXPECT_EQ(filled.record, "record of the job");
}

TEST(Filled, ReadsFieldsThatHangUnderAParent) {
  const std::string pdf = changed(two_page_form(), [](QPDF& document) {
    Handle field = field_in(document, kFirst);
    Handle parent = document.makeIndirectObject(Handle::newDictionary());
    parent.replaceKey("/T", Handle::newString("sheet"));
    parent.replaceKey("/V", Handle::newString("7"));
    parent.replaceKey("/FT", field.getKey("/FT"));
    field.removeKey("/FT");
    field.replaceKey("/Parent", parent);
    parent.replaceKey("/Kids", Handle::newArray({field}));
    document.getRoot().getKey("/AcroForm").replaceKey("/Fields", Handle::newArray({parent}));
  });
  EXPECT_EQ(text_of(filled_from(pdf), "sheet.reading.A-C.1"), "7");
}

TEST(Filled, NoticesScriptsAndRunsNone) {
  const auto script = [] {
    Handle action = Handle::newDictionary();
    action.replaceKey("/S", Handle::newName("/JavaScript"));
    action.replaceKey("/JS", Handle::newString("app.alert('hello')"));
    return action;
  };
  EXPECT_TRUE(filled_from(changed(two_page_form(), [&](QPDF& document) {
                document.getRoot().replaceKey("/OpenAction", script());
              })).has_actions);
  EXPECT_TRUE(filled_from(changed(two_page_form(), [&](QPDF& document) {
                Handle when = Handle::newDictionary();
                when.replaceKey("/K", script());
                field_in(document, kFirst).replaceKey("/AA", when);
              })).has_actions);
  EXPECT_TRUE(filled_from(changed(two_page_form(), [&](QPDF& document) {
                Handle names = Handle::newDictionary();
                names.replaceKey("/JavaScript", Handle::newDictionary());
                document.getRoot().replaceKey("/Names", names);
              })).has_actions);
}

TEST(BadForm, ThatIsNoPdfIsRefused) {
  EXPECT_THAT(refused(""), HasSubstr("damaged or cut short"));
  EXPECT_THAT(refused("from,to,reading\n"), HasSubstr("damaged or cut short"));
  EXPECT_THAT(refused("%PDF-1.7\n"), HasSubstr("damaged or cut short"));
}

TEST(BadForm, CutShortAnywhereIsRefused) {
  const std::string whole = with_text(two_page_form(), kFirst, "3766");
  for (std::size_t length = 0; length + 40 < whole.size(); length += 97)
    EXPECT_THAT(refused(whole.substr(0, length)), HasSubstr("damaged or cut short")) << length;
}

TEST(BadForm, ThatNeedsAPasswordIsRefusedAndOneThatNeedsNoneIsRead) {
  const auto locked = [](const char* user) {
    return changed(
        with_text(two_page_form(), kFirst, "3766"), [](QPDF&) {},
        [user](QPDFWriter& writer) {
          writer.setR6EncryptionParameters(user, "owner", true, true, true, true, true, true,
                                           qpdf_r3p_full, true);
        });
  };
  EXPECT_THAT(refused(locked("secret")), HasSubstr("needs a password"));
  EXPECT_EQ(text_of(filled_from(locked("")), "reading.A-C.1"), "3766");
}

TEST(BadForm, WithAnXfaFormIsRefused) {
  EXPECT_THAT(refused(changed(two_page_form(),
                              [](QPDF& document) {
                                document.getRoot()
                                    .getKey("/AcroForm")
                                    .replaceKey("/XFA", Handle::newStream(&document, "<xdp/>"));
                              })),
              HasSubstr("XFA"));
}

TEST(BadForm, WithAFieldTwiceIsRefusedUnlessBothSayTheSame) {
  const auto doubled = [](const char* other) {
    return changed(two_page_form(), [other](QPDF& document) {
      Handle field = field_in(document, kFirst);
      field.replaceKey("/V", Handle::newString("3766"));
      Handle copy = document.makeIndirectObject(field.shallowCopy());
      copy.replaceKey("/V", Handle::newString(other));
      document.getRoot().getKey("/AcroForm").getKey("/Fields").appendItem(copy);
    });
  };
  EXPECT_THAT(refused(doubled("3767")),
              AllOf(HasSubstr(kFirst), HasSubstr("\"3766\""), HasSubstr("\"3767\"")));
  EXPECT_EQ(text_of(filled_from(doubled("3766")), "reading.A-C.1"), "3766");
  EXPECT_EQ(text_of(filled_from(doubled("")), "reading.A-C.1"), "3766");
}

TEST(BadForm, WithAFieldThatHoldsNoTextIsRefusedByName) {
  for (const Handle& value : {Handle::newInteger(3766), Handle::newArray(), Handle::newName("/x"),
                              Handle::newDictionary()})
    EXPECT_THAT(refused(with_value(two_page_form(), kFirst, value)),
                AllOf(HasSubstr(kFirst), HasSubstr("no text")));
  EXPECT_THAT(
      refused(changed(
          two_page_form(),
          [](QPDF& document) {
            field_in(document, kFirst).replaceKey("/V", Handle::newStream(&document, "3766"));
          })),
      HasSubstr("no text"));
}

TEST(BadForm, WhoseFieldsOrPagesGoRoundInARingIsReadOnceOrRefused) {
  const Filled ring = filled_from(changed(two_page_form(), [](QPDF& document) {
    Handle field = field_in(document, kFirst);
    field.replaceKey("/Kids", Handle::newArray({field}));
    field.replaceKey("/V", Handle::newString("3766"));
  }));
  EXPECT_EQ(text_of(ring, "reading.A-C.1"), "3766");
  EXPECT_THAT(refused(changed(two_page_form(),
                              [](QPDF& document) {
                                Handle first = document.makeIndirectObject(Handle::newDictionary());
                                first.replaceKey("/T", Handle::newString("ring"));
                                first.replaceKey("/Subtype", Handle::newName("/Widget"));
                                first.replaceKey("/Parent", first);
                                Handle page = document.getAllPages().front();
                                page.getKey("/Annots").appendItem(first);
                              })),
              HasSubstr("without end"));
}

TEST(BadForm, NestedDeeperThanAnyFormIsRefused) {
  EXPECT_THAT(
      refused(changed(
          two_page_form(),
          [](QPDF& document) {
            Handle inner = field_in(document, kFirst);
            for (int k = 0; k < 3000; ++k) {
              Handle outer = document.makeIndirectObject(Handle::newDictionary());
              outer.replaceKey("/T", Handle::newString("t"));
              outer.replaceKey("/Kids", Handle::newArray({inner}));
              inner = outer;
            }
            document.getRoot().getKey("/AcroForm").replaceKey("/Fields", Handle::newArray({inner}));
          })),
      HasSubstr("without end"));
}

TEST(BadForm, WithMoreFieldsThanAnyFormIsRefused) {
  EXPECT_THAT(refused(changed(two_page_form(),
                              [](QPDF& document) {
                                Handle fields =
                                    document.getRoot().getKey("/AcroForm").getKey("/Fields");
                                for (std::size_t k = 0; k <= kMostFields; ++k) {
                                  Handle field = Handle::newDictionary();
                                  field.replaceKey("/T", Handle::newString(fmt::format("t{}", k)));
                                  fields.appendItem(field);
                                }
                              })),
              HasSubstr("more than 20000 fields"));
}

TEST(BadForm, WithoutCatalogPagesOrFieldsHoldsNothing) {
  const auto blank = filled_from(changed(two_page_form(), [](QPDF& document) {
    document.getRoot().removeKey("/AcroForm");
    for (Handle page : document.getAllPages()) page.removeKey("/Annots");
  }));
  EXPECT_THAT(blank.fields, IsEmpty());
  EXPECT_EQ(blank.record, "");
}

}  // namespace
}  // namespace stakewright::fields
