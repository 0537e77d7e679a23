#include "stakewright/fields/filled.hpp"

#include <fmt/format.h>

#include <new>
#include <qpdf/QPDF.hh>

#include "field_tree.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/fields/fillable.hpp"

namespace stakewright::fields {
namespace {

[[noreturn]] void refuse_damaged(const std::string& detail) {
  throw base::InputError(
      fmt::format("the PDF is damaged or cut short ({}); accepted: the form as the program that "
                  "filled it in saved it",
                  base::is_printable(detail) ? detail : base::in_quotes(detail)));
}

[[noreturn]] void refuse(const QPDFExc& problem) {
  switch (problem.getErrorCode()) {
    case qpdf_e_password:
      throw base::InputError("the PDF needs a password; accepted: the form saved without one");
    case qpdf_e_unsupported:
      throw base::InputError(
          "the PDF is locked in a way that is not read here; accepted: the form "
          "saved without protection");
    default:
      refuse_damaged(problem.getMessageDetail());
  }
}

Filled read(QPDF& pdf) {
  FoundFields found = found_fields(pdf);
  Filled filled;
  filled.has_actions = found.has_actions;
  for (Found& field : found.fields) {
    if (field.name == kRecordField) {
      filled.record = std::move(field.text);
    } else {
      filled.fields.push_back({blank_name(field.name), std::move(field.text)});
    }
  }
  // The library goes on past what it cannot read, and what it skipped may have been a field.
  const std::vector<QPDFExc> warnings = pdf.getWarnings();
  if (!warnings.empty()) refuse(warnings.front());
  return filled;
}

}  // namespace

Filled filled_from(std::string_view bytes) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  try {
    pdf.processMemoryFile("form", bytes.data(), bytes.size());
    return read(pdf);
  } catch (const base::InputError&) {
    throw;
  } catch (const QPDFExc& problem) {
    refuse(problem);
  } catch (const std::bad_alloc&) {
    throw base::InputError("the PDF needs more memory than any form does");
  } catch (const std::exception& problem) {  // the library's own checks of what it did not expect
    refuse_damaged(problem.what());
  }
}

}  // namespace stakewright::fields
