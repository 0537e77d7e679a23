#include "stakewright/job/written_rows.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <set>

#include "row_under.hpp"

namespace stakewright::job {
namespace {

std::string quoted(const std::string& text) {
  std::string field = "\"";
  for (const char c : text) {
    if (c == '"') field += '"';
    field += c;
  }
  return field + '"';
}

}  // namespace

Row header_of(const std::vector<WrittenRow>& written) {
  std::set<std::string, std::less<>> names{"from", "to", "reading"};
  for (const WrittenRow& row : written)
    for (const auto& field : row) names.insert(field.first);
  return {0, {names.begin(), names.end()}};
}

Row row_under(const Row& header, const WrittenRow& written) {
  const auto reading = written.find("reading");
  const std::string place = reading == written.end() ? "" : reading->second.place;
  Row row;
  for (const std::string& name : header.fields) {
    const auto field = written.find(name);
    row.fields.push_back(field == written.end() ? "" : field->second.text);
    row.places.push_back(field == written.end() ? place : field->second.place);
  }
  return row;
}

std::string csv_from_rows(const std::vector<WrittenRow>& rows) {
  const Row header = header_of(rows);
  std::string csv = fmt::format("{}\n", fmt::join(header.fields, ","));
  for (const WrittenRow& written : rows) {
    Row row = row_under(header, written);
    for (std::string& field : row.fields)
      if (!field.empty()) field = quoted(field);
    csv += fmt::format("{}\n", fmt::join(row.fields, ","));
  }
  return csv;
}

}  // namespace stakewright::job
