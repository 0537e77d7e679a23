// Told reports as text, to look for words in.
#pragma once

#include <string>
#include <vector>

#include "stakewright/told/report.hpp"
#include "stakewright/wording/voice.hpp"

namespace stakewright::told {

inline wording::Voice english(base::Units units = base::Units::feet_inches) {
  return {wording::built_in("en"), units};
}

inline wording::Voice spanish(base::Units units = base::Units::millimeters) {
  return {wording::built_in("es"), units};
}

inline std::string text_of(const Paragraph& said, const wording::Voice& voice = english()) {
  std::string text;
  for (const base::Fact& sentence : said) text += (text.empty() ? "" : " ") + voice.text(sentence);
  return text;
}

/// `D | 7/8" outward | OUT`.
inline std::string text_of(const Row& row, const wording::Voice& voice = english()) {
  std::string text;
  for (std::size_t i = 0; i < row.size(); ++i) text += (i == 0 ? "" : " | ") + voice.text(row[i]);
  return text;
}

/// Heading, sentences, column headings and rows, a line each.
inline std::vector<std::string> lines_of(const std::vector<Section>& sections,
                                         const wording::Voice& voice = english()) {
  std::vector<std::string> lines;
  for (const Section& section : sections) {
    if (section.heading) lines.push_back(voice.text(*section.heading));
    for (const auto& block : section.blocks) {
      if (const auto* said = std::get_if<Paragraph>(&block)) {
        lines.push_back(text_of(*said, voice));
        continue;
      }
      const auto& table = std::get<Table>(block);
      lines.push_back(text_of(table.headings, voice));
      for (const Row& row : table.rows) lines.push_back(text_of(row, voice));
    }
  }
  return lines;
}

}  // namespace stakewright::told
