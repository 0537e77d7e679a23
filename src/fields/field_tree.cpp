#include "field_tree.hpp"

#include <map>
#include <set>

#include "stakewright/base/error.hpp"
#include "stakewright/fields/filled.hpp"

namespace stakewright::fields {
namespace {

using Handle = QPDFObjectHandle;
using base::Fact;
using base::InputError;

/// Fields and pages are nested a few deep; a file that nests them deeper, or in a ring, is no form.
constexpr int kDeepest = 32;

[[noreturn]] void refuse_nested() { throw InputError(Fact{"errors.pdf_nested"}); }

Fact place_of(const std::string& field) {
  return {"errors.field", {{"name", base::Quoted{field}}}};
}

/// The entry, null where this is no dictionary.
Handle entry(const Handle& of, const char* key) {
  Handle owner = of;
  return owner.isDictionary() ? owner.getKey(key) : Handle::newNull();
}

std::vector<Handle> items(Handle list) {
  return list.isArray() ? list.getArrayAsVector() : std::vector<Handle>{};
}

/// What a field takes from those above it.
struct Field {
  std::string name;
  Handle type = Handle::newNull();
  Handle value = Handle::newNull();

  /// Adds what the dictionary itself says.
  void take(const Handle& node) {
    if (Handle own = entry(node, "/T"); own.isString()) {
      if (!name.empty()) name += '.';
      name += own.getUTF8Value();
    }
    if (Handle own = entry(node, "/FT"); own.isName()) type = own;
    if (Handle own = entry(node, "/V"); !own.isNull()) value = own;
  }
};

std::string text_of(Field& field) {
  const bool writes = field.type.isNameAndEquals("/Tx") || field.type.isNameAndEquals("/Ch");
  if (!writes || field.value.isNull()) return "";
  if (field.value.isString()) return field.value.getUTF8Value();
  throw InputError(Fact{"errors.pdf_no_text"}).at(place_of(field.name));
}

bool acts(const Handle& node) {
  return entry(node, "/A").isDictionary() || entry(node, "/AA").isDictionary();
}

class Tree {
 public:
  void add_form(const Handle& form) {
    if (!entry(form, "/XFA").isNull()) throw InputError(Fact{"errors.pdf_xfa"});
    for (const Handle& field : items(entry(form, "/Fields"))) descend(field, {}, 0);
  }

  /// Pages, and the fields on them that the form did not lead to.
  void add_pages(const Handle& node, int depth) {
    if (depth > kDeepest) refuse_nested();
    if (!is_new(node)) return;
    for (const Handle& kid : items(entry(node, "/Kids"))) add_pages(kid, depth + 1);
    for (const Handle& mark : items(entry(node, "/Annots")))
      if (entry(mark, "/Subtype").isNameAndEquals("/Widget") && is_new(mark)) add_widget(mark);
  }

  FoundFields take() { return std::move(found_); }

 private:
  /// True once for each object; what stands by itself inside another is always new.
  bool is_new(Handle node) {
    found_.has_actions = found_.has_actions || acts(node);
    if (!node.isIndirect()) return true;
    return seen_.insert(node.getObjGen()).second;
  }

  /// True when the node is a field that was not met before.
  bool descend(const Handle& node, Field above, int depth) {
    if (depth > kDeepest) refuse_nested();
    const bool is_first = is_new(node);
    // Without a name it is one of the places of the field above.
    if (!is_first || (depth > 0 && !entry(node, "/T").isString())) return false;
    above.take(node);
    bool has_fields = false;
    for (const Handle& kid : items(entry(node, "/Kids")))
      has_fields = descend(kid, above, depth + 1) || has_fields;
    if (!has_fields) keep(above);
    return true;
  }

  void add_widget(const Handle& widget) {
    std::vector<Handle> line{widget};
    for (Handle above = entry(widget, "/Parent"); above.isDictionary();
         above = entry(above, "/Parent")) {
      if (line.size() > static_cast<std::size_t>(kDeepest)) refuse_nested();
      line.push_back(above);
    }
    Field field;
    for (auto node = line.rbegin(); node != line.rend(); ++node) field.take(*node);
    keep(field);
  }

  void keep(Field& field) {
    if (field.name.empty()) return;
    std::string text = text_of(field);
    const auto [place, is_first] = by_name_.emplace(field.name, found_.fields.size());
    if (is_first) {
      if (found_.fields.size() >= kMostFields)
        throw InputError(Fact{"errors.pdf_fields", {{"most", base::Count{kMostFields}}}});
      found_.fields.push_back({field.name, std::move(text)});
      return;
    }
    std::string& had = found_.fields[place->second].text;
    if (had.empty()) had = text;
    if (!text.empty() && text != had)
      throw InputError(
          Fact{"errors.pdf_twice", {{"one", base::Quoted{had}}, {"other", base::Quoted{text}}}})
          .at(place_of(field.name));
  }

  std::set<QPDFObjGen> seen_;
  std::map<std::string, std::size_t> by_name_;
  FoundFields found_;
};

}  // namespace

FoundFields found_fields(QPDF& pdf) {
  const Handle root = pdf.getRoot();
  Tree tree;
  tree.add_form(entry(root, "/AcroForm"));
  tree.add_pages(entry(root, "/Pages"), 0);
  FoundFields found = tree.take();
  found.has_actions = found.has_actions || acts(root) ||
                      entry(root, "/OpenAction").isDictionary() ||
                      !entry(entry(root, "/Names"), "/JavaScript").isNull();
  return found;
}

}  // namespace stakewright::fields
