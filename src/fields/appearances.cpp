#include "appearances.hpp"

#include <fmt/format.h>

namespace stakewright::fields {
namespace {

using Handle = QPDFObjectHandle;

/// One of the 14 fonts of ISO 32000-1, 9.6.2.2, which need not be in the file.
Handle standard_font(const char* name) {
  Handle font = Handle::newDictionary();
  font.replaceKey("/Type", Handle::newName("/Font"));
  font.replaceKey("/Subtype", Handle::newName("/Type1"));
  font.replaceKey("/BaseFont", Handle::newName(name));
  return font;
}

/// A tick as a hand makes it, in a box of that size.
std::string tick_marks(double w, double h) {
  return fmt::format("q 0 G 1.6 w 1 J 1 j {:.3f} {:.3f} m {:.3f} {:.3f} l {:.3f} {:.3f} l S Q\n",
                     0.20 * w, 0.50 * h, 0.42 * w, 0.22 * h, 0.82 * w, 0.82 * h);
}

}  // namespace

Appearances::Appearances(QPDF& pdf) : pdf_(pdf), resources_(Handle::newDictionary()) {
  Handle text = standard_font("/Helvetica");
  text.replaceKey("/Encoding", Handle::newName("/WinAnsiEncoding"));
  Handle fonts = Handle::newDictionary();
  fonts.replaceKey(kTextFont, pdf.makeIndirectObject(text));
  fonts.replaceKey(kTickFont, pdf.makeIndirectObject(standard_font("/ZapfDingbats")));
  resources_.replaceKey("/Font", fonts);
  resources_ = pdf.makeIndirectObject(resources_);
}

Handle Appearances::drawn(const drawing::Box& box, const std::string& marks) const {
  Handle form = Handle::newStream(&pdf_, marks);
  Handle about = form.getDict();
  about.replaceKey("/Type", Handle::newName("/XObject"));
  about.replaceKey("/Subtype", Handle::newName("/Form"));
  about.replaceKey("/BBox", Handle::newArray(Handle::Rectangle(0, 0, box.width_pt, box.height_pt)));
  about.replaceKey("/Resources", resources_);
  return form;
}

Handle Appearances::empty_text(const drawing::Box& box) const {
  // The marks between which a program puts the text (ISO 32000-1, 12.7.3.3).
  return drawn(box, "/Tx BMC\nEMC\n");
}

Handle Appearances::tick(const drawing::Box& box) {
  Handle& both = ticks_[{box.width_pt, box.height_pt}];
  if (!both.isInitialized()) {
    both = Handle::newDictionary();
    both.replaceKey(kTicked, drawn(box, tick_marks(box.width_pt, box.height_pt)));
    both.replaceKey(kNotTicked, drawn(box, "\n"));
  }
  return both;
}

}  // namespace stakewright::fields
