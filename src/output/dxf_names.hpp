// Names and texts as a DXF file takes them.
#pragma once

#include <set>
#include <string>
#include <string_view>

namespace stakewright::output {

/// Text of a file of the year 2000: ASCII, every other character as \U+XXXX (those past U+FFFF as
/// a pair of surrogates), and so the three characters a reader would take for a code: \ ^ %.
/// `text` is well-formed UTF-8.
std::string dxf_text(std::string_view text);

/// Names of layers, each once.
class DxfLayerNames {
 public:
  /// The name with what no layer name may hold (< > / \ " : ; ? * | , = ` and characters past
  /// U+FFFF) as _, and with a number behind it when a layer of that name is there already, in
  /// whatever capitals.  Source: DXF reference, "Symbol table names", from memory.
  std::string name(std::string_view wanted);

 private:
  std::set<std::string> taken_{"0", "defpoints"};  ///< those every reader keeps for itself
};

}  // namespace stakewright::output
