// A report as it is told: sections, sentences, tables of typed values.  No layout, no language, no
// unit of display: terminal, paper and page render the same report, each through a
// `wording::Voice`.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "stakewright/base/fact.hpp"

namespace stakewright::told {

using Row = std::vector<base::Value>;

struct Table {
  Row headings;  ///< one a column; `Nothing` over a column that needs none
  std::vector<Row> rows;
};

/// Sentences that stand together.
using Paragraph = std::vector<base::Fact>;

struct Section {
  std::optional<base::Fact> heading;
  std::vector<std::variant<Paragraph, Table>> blocks;
};

struct Report {
  std::string title;  ///< of the job
  std::vector<Section> sections;
};

}  // namespace stakewright::told
