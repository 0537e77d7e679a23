// A dense matrix of numbers handed from one module to the next, row by row,
// so that no linear-algebra library shows in a public header.
#pragma once

#include <cstddef>
#include <vector>

namespace stakewright::base {

struct Matrix {
  std::size_t rows = 0;
  std::size_t cols = 0;
  std::vector<double> values;  ///< row after row, rows * cols of them

  Matrix() = default;
  Matrix(std::size_t row_count, std::size_t column_count)
      : rows(row_count), cols(column_count), values(row_count * column_count, 0.0) {}

  double& operator()(std::size_t row, std::size_t col) { return values[row * cols + col]; }
  double operator()(std::size_t row, std::size_t col) const { return values[row * cols + col]; }
};

}  // namespace stakewright::base
