// The header of a readings file, and the names its fields may hold.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "csv_rows.hpp"

namespace stakewright::job {

/// Names a field may hold.
class Names {
 public:
  explicit Names(std::vector<std::string> known) : known_(std::move(known)) {}

  [[nodiscard]] bool has(const std::string& name) const;

  /// The name that differs from this one in capitals only, or not at all; empty when none does.
  [[nodiscard]] std::string but_for_capitals(const std::string& name) const;

  /// Throws InputError for any other, listing these, and the one that differs in capitals only.
  void demand(const std::string& name) const;

 private:
  [[nodiscard]] std::string listed() const;

  std::vector<std::string> known_;
};

/// Where each column stands in a row.  Columns come in any order and in any capitals.
class Columns {
 public:
  /// Throws InputError for an unknown column, one that comes twice, and a missing one of
  /// from, to, reading.
  Columns(const Row& header, const std::string& file);

  /// The field; empty when the file has no such column or the row ends before it.
  [[nodiscard]] const std::string& field(const Row& row, std::string_view column) const;

  /// Where the field was written: `line 7, column reading`, or the place it has of its own.
  [[nodiscard]] std::string place(const Row& row, std::string_view column) const;

  /// Throws InputError for text under no column.
  void demand_no_more(const Row& row) const;

 private:
  std::map<std::string, std::size_t, std::less<>> by_name_;
};

}  // namespace stakewright::job
