#include "stakewright/fields/filled.hpp"

#include <new>
#include <qpdf/QPDF.hh>

#include "field_tree.hpp"
#include "stakewright/base/error.hpp"
#include "stakewright/base/text.hpp"
#include "stakewright/fields/fillable.hpp"

namespace stakewright::fields {
namespace {

using base::Fact;
using base::InputError;

[[noreturn]] void refuse_damaged(const std::string& detail) {
  const base::Value told =
      base::is_printable(detail) ? base::Value(base::Name{detail}) : base::Quoted{detail};
  throw InputError(Fact{"errors.pdf_damaged", {{"detail", told}}});
}

[[noreturn]] void refuse(const QPDFExc& problem) {
  switch (problem.getErrorCode()) {
    case qpdf_e_password:
      throw InputError(Fact{"errors.pdf_password"});
    case qpdf_e_unsupported:
      throw InputError(Fact{"errors.pdf_locked"});
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
  } catch (const InputError&) {
    throw;
  } catch (const QPDFExc& problem) {
    refuse(problem);
  } catch (const std::bad_alloc&) {
    throw InputError(Fact{"errors.pdf_memory"});
  } catch (const std::exception& problem) {  // the library's own checks of what it did not expect
    refuse_damaged(problem.what());
  }
}

}  // namespace stakewright::fields
