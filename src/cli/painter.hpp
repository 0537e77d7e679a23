// What draws, for the commands: the program that has the drawing libraries hands it to them.
#pragma once

#include <string>
#include <vector>

#include "options.hpp"

namespace stakewright::check {
struct Findings;
}
namespace stakewright::job {
struct Job;
}
namespace stakewright::results {
struct CarryResult;
struct LayoutResult;
}  // namespace stakewright::results

namespace stakewright::cli {

/// Bytes of the file that -o names, and what the user should know of it.
struct Painted {
  std::string bytes;
  std::vector<std::string> remarks;
};

/// Draws the very results that a command has.  Of the options only those count that say how a
/// drawing is shown.  All throw InputError for a drawing or a language that there is not.
struct Painter {
  Painted (*plan)(const Options&, const job::Job&, const results::LayoutResult&);
  Painted (*found)(const Options&, const job::Job&, const check::Findings&);
  Painted (*roof)(const Options&, const job::Job&, const results::CarryResult&);
  Painted (*field_form)(const Options&, const job::Job&);
  Painted (*correction_sheet)(const Options&, const job::Job&, const check::Findings&);
};

}  // namespace stakewright::cli
