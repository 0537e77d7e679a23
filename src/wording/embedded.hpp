// The wording files as they were when the program was built.
#pragma once

#include <string_view>
#include <vector>

namespace stakewright::wording {

struct EmbeddedFile {
  std::string_view language;
  std::string_view text;
};

const std::vector<EmbeddedFile>& embedded_files();

/// The phrases of the report, likewise.
const std::vector<EmbeddedFile>& embedded_phrase_books();

}  // namespace stakewright::wording
