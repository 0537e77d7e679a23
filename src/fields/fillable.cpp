#include "stakewright/fields/fillable.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <qpdf/QPDFWriter.hh>

#include "appearances.hpp"

namespace stakewright::fields {
namespace {

using Handle = QPDFObjectHandle;

/// One size for all: left to itself a viewer sets a short reading large and a long note too small
/// to read.
constexpr double kText_pt = 11.0;
/// What a viewer paints in a field stays off the rules that frame it.
constexpr double kInset_pt = 0.75;
/// Of a blank's height; what is left is room above and below the letters.
constexpr double kTextOfHeight = 0.7;

// Flags (ISO 32000-1, tables 165, 221 and 228).
constexpr int kHidden = 1 << 1;
constexpr int kPrinted = 1 << 2;
constexpr int kReadOnly = 1 << 0;
constexpr int kSeveralLines = 1 << 12;

Handle number(double value) { return Handle::newReal(value, 3, true); }

drawing::Box inside(const drawing::Box& box) {
  return {box.x_pt + kInset_pt, box.y_pt + kInset_pt, box.width_pt - 2.0 * kInset_pt,
          box.height_pt - 2.0 * kInset_pt};
}

/// On a PDF's page y goes up from the bottom edge.
Handle rectangle(const drawing::Box& box, double page_height_pt) {
  return Handle::newArray({number(box.x_pt), number(page_height_pt - box.bottom_pt()),
                           number(box.right_pt()), number(page_height_pt - box.y_pt)});
}

Handle white() { return Handle::newArray({Handle::newInteger(1)}); }

std::string font_of(const char* font, double size_pt) {
  return fmt::format("{} {:g} Tf 0 g", font, size_pt);
}

class FormMaker {
 public:
  FormMaker(QPDF& pdf, const Extras& extras)
      : pdf_(pdf), extras_(extras), appearances_(pdf), fields_(Handle::newArray()) {}

  void add_record(const std::vector<Handle>& pages) {
    Handle field = Handle::newDictionary();
    field.replaceKey("/FT", Handle::newName("/Tx"));
    field.replaceKey("/Ff", Handle::newInteger(kReadOnly | kSeveralLines));
    field.replaceKey("/T", Handle::newUnicodeString(kRecordField));
    field.replaceKey("/V", Handle::newUnicodeString(extras_.record));
    field = pdf_.makeIndirectObject(field);
    Handle kids = Handle::newArray();
    for (const Handle& page : pages) {
      Handle widget = widget_on(page, {}, kHidden);
      widget.replaceKey("/Parent", field);
      kids.appendItem(hung_on(page, widget));
    }
    field.replaceKey("/Kids", kids);
    fields_.appendItem(field);
  }

  void add(const Handle& page, double page_height_pt, const drawing::Blank& blank) {
    const bool is_tick = blank.kind == drawing::BlankKind::tick;
    const drawing::Box box = is_tick ? blank.box : inside(blank.box);
    Handle field = widget_on(page, rectangle(box, page_height_pt), kPrinted);
    field.replaceKey("/T", Handle::newUnicodeString(field_name(blank.name)));
    if (extras_.hint) {
      field.replaceKey("/TU", Handle::newUnicodeString(extras_.hint(blank.name)));
    }
    if (is_tick) {
      make_check_box(field, box);
    } else {
      make_text_field(field, box);
    }
    fields_.appendItem(hung_on(page, field));
  }

  /// The form as a whole, into the catalog.
  void finish() {
    Handle form = Handle::newDictionary();
    form.replaceKey("/Fields", fields_);
    form.replaceKey("/DR", appearances_.resources());
    form.replaceKey("/DA", Handle::newString(font_of(kTextFont, kText_pt)));
    Handle root = pdf_.getRoot();
    root.replaceKey("/AcroForm", pdf_.makeIndirectObject(form));
    root.replaceKey("/Lang", Handle::newUnicodeString(extras_.language));
  }

 private:
  static Handle widget_on(const Handle& page, Handle rect, int flags) {
    Handle widget = Handle::newDictionary();
    widget.replaceKey("/Type", Handle::newName("/Annot"));
    widget.replaceKey("/Subtype", Handle::newName("/Widget"));
    if (!rect.isInitialized()) rect = Handle::newArray(Handle::Rectangle(0, 0, 0, 0));
    widget.replaceKey("/Rect", rect);
    widget.replaceKey("/F", Handle::newInteger(flags));
    widget.replaceKey("/P", page);
    return widget;
  }

  Handle hung_on(Handle page, const Handle& widget) {
    if (!page.hasKey("/Annots")) page.replaceKey("/Annots", Handle::newArray());
    const Handle hung = pdf_.makeIndirectObject(widget);
    page.getKey("/Annots").appendItem(hung);
    return hung;
  }

  void make_text_field(Handle& field, const drawing::Box& box) {
    const double size_pt = std::min(kText_pt, kTextOfHeight * box.height_pt);
    field.replaceKey("/FT", Handle::newName("/Tx"));
    field.replaceKey("/DA", Handle::newString(font_of(kTextFont, size_pt)));
    // Once something is typed a viewer draws the field itself, and the units printed under it
    // give way to what was typed.
    Handle looks = Handle::newDictionary();
    looks.replaceKey("/BG", white());
    field.replaceKey("/MK", looks);
    Handle shown = Handle::newDictionary();
    shown.replaceKey("/N", appearances_.empty_text(box));
    field.replaceKey("/AP", shown);
  }

  void make_check_box(Handle& field, const drawing::Box& box) {
    field.replaceKey("/FT", Handle::newName("/Btn"));
    field.replaceKey("/V", Handle::newName(kNotTicked));
    field.replaceKey("/AS", Handle::newName(kNotTicked));
    field.replaceKey("/DA", Handle::newString(font_of(kTickFont, 0.0)));
    Handle looks = Handle::newDictionary();
    looks.replaceKey("/CA", Handle::newString("4"));  // a tick, in that font
    field.replaceKey("/MK", looks);
    Handle shown = Handle::newDictionary();
    shown.replaceKey("/N", appearances_.tick(box));
    field.replaceKey("/AP", shown);
  }

  QPDF& pdf_;
  const Extras& extras_;
  Appearances appearances_;
  Handle fields_;
};

std::string written(QPDF& pdf) {
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setDeterministicID(true);
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

}  // namespace

std::string fillable(const std::string& pdf, const std::vector<drawing::Page>& pages,
                     const Extras& extras) {
  QPDF document;
  document.processMemoryFile("form", pdf.data(), pdf.size());
  const std::vector<Handle> sheets = document.getAllPages();
  assert(sheets.size() == pages.size());
  FormMaker maker(document, extras);
  for (std::size_t i = 0; i < sheets.size(); ++i)
    for (const drawing::Blank& blank : pages[i].blanks)
      maker.add(sheets[i], pages[i].height_pt, blank);
  maker.add_record(sheets);
  maker.finish();
  return written(document);
}

}  // namespace stakewright::fields
