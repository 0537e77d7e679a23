// What a form remembers of the job it was made for, so that a form of another job, or of another
// state of the same one, can be told, and told what changed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "stakewright/base/fact.hpp"
#include "stakewright/base/length.hpp"
#include "stakewright/job/job.hpp"

namespace stakewright::forms {

/// A short mark printed on every sheet, two groups of four hexadecimal digits: `7C21-09AE`.
///
/// It covers what decides where a stake goes and what it is called: sides, size,
/// place, facing, held stakes, pins, lines, outlines and batter boards, each to the
/// nearest micrometer or microradian.  Titles, tolerances, units and the roof do not
/// change it.  FNV-1a, 64 bits, folded to 32: two different jobs share a mark once
/// in about four thousand million.
std::string fingerprint(const layout::Plan& plan);

/// Changes when what a record holds changes.
inline constexpr int kFormVersion = 1;

/// One thing of the job that the fingerprint covers.
struct Recorded {
  std::string key;    ///< `size`, `pin P1`
  std::string exact;  ///< to the micrometer or microradian, as the fingerprint takes it
  std::string shown;  ///< `across_flats 16ft`, in the job's units and its words
};

struct JobRecord {
  std::string fingerprint;
  std::string title;
  base::Units units = base::Units::millimeters;  ///< of bare numbers in the form's blanks
  std::string language;
  std::vector<Recorded> things;
  std::vector<std::string> blanks;  ///< names of all there were, in walking order
};

JobRecord job_record(const job::Job& job, base::Units units, const std::string& language,
                     std::vector<std::string> blanks);

/// The record as lines of text, and back.
/// Throws InputError when it is not one, or one of another version.
std::string text_of(const JobRecord& record);
JobRecord job_record_from_text(std::string_view text);

/// What of the job is otherwise than when the form was made: `size was across_flats 16ft, now
/// across_flats 16ft 6in`.  Empty when the fingerprints are the same.
std::vector<base::Fact> changes_since(const JobRecord& record, const job::Job& job);

}  // namespace stakewright::forms
