// Forms to write into and to spoil, with the library that other programs use too.
#pragma once

#include <functional>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFAcroFormDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>
#include <string>
#include <vector>

#include "stakewright/drawing/files.hpp"
#include "stakewright/fields/fillable.hpp"
#include "stakewright/fields/filled.hpp"

namespace stakewright::fields {

inline std::vector<drawing::Page> two_pages() {
  drawing::Page first;
  first.title = "First";
  first.blanks = {{"date", {50, 60, 120, 20}, drawing::BlankKind::text},
                  {"set.C", {300, 60, 14, 14}, drawing::BlankKind::tick}};
  drawing::Page second;
  second.width_pt = 595.0;
  second.height_pt = 842.0;
  second.blanks = {{"reading.A-C.1", {40, 200, 80, 23}, drawing::BlankKind::text},
                   {"reading.A-C.2", {120, 200, 80, 23}, drawing::BlankKind::text}};
  return {first, second};
}

inline std::string two_page_form(const std::string& record = "record of the job") {
  const auto pages = two_pages();
  return fillable(drawing::pdf(pages, "Two pages"), pages,
                  {record, "en", [](const std::string& blank) { return "hint for " + blank; }});
}

/// What another program makes of a form: reads it, changes it, writes it.
inline std::string changed(const std::string& pdf, const std::function<void(QPDF&)>& change,
                           const std::function<void(QPDFWriter&)>& write = {}) {
  QPDF document;
  document.processMemoryFile("form", pdf.data(), pdf.size());
  change(document);
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.setStaticID(true);
  if (write) write(writer);
  writer.write();
  const auto bytes = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

/// The field of that name in the file.
inline QPDFObjectHandle field_in(QPDF& document, const std::string& name) {
  for (QPDFObjectHandle field :
       document.getRoot().getKey("/AcroForm").getKey("/Fields").getArrayAsVector())
    if (field.getKey("/T").getUTF8Value() == name) return field;
  throw std::logic_error("no field " + name);
}

/// The form with one field's value set to an object.
inline std::string with_value(const std::string& pdf, const std::string& name,
                              const QPDFObjectHandle& value) {
  return changed(pdf, [&](QPDF& document) { field_in(document, name).replaceKey("/V", value); });
}

inline std::string with_text(const std::string& pdf, const std::string& name,
                             const std::string& text) {
  return with_value(pdf, name, QPDFObjectHandle::newUnicodeString(text));
}

/// Text of a blank of what was read; nothing when there is no such blank.
inline std::string text_of(const Filled& filled, const std::string& blank) {
  for (const Field& field : filled.fields)
    if (field.blank == blank) return field.text;
  return "";
}

}  // namespace stakewright::fields
