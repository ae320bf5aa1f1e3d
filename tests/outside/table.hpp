#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace brakewright::outside {

/// A table of published check data: comma separated, one heading line, lines that begin with # say where it is from.
class Table {
 public:
  explicit Table(const std::string& name) : name_(name) {
    std::ifstream file(std::string(BRAKEWRIGHT_TEST_DATA) + "/" + name);
    if (!file) throw std::runtime_error("there is no " + name);
    std::string line;
    while (std::getline(file, line)) {
      if (!line.empty() && line.back() == '\r') line.pop_back();
      if (line.empty() || line[0] == '#') continue;
      (heading_.empty() ? heading_ : rows_.emplace_back()) = cells_of(line);
    }
    if (rows_.empty()) throw std::runtime_error(name + " has no rows");
  }

  std::size_t size() const { return rows_.size(); }

  const std::string& text(std::size_t row, const std::string& column) const {
    const auto found = std::find(heading_.begin(), heading_.end(), column);
    if (found == heading_.end()) throw std::runtime_error(name_ + " has no column " + column);
    return rows_.at(row).at(static_cast<std::size_t>(found - heading_.begin()));
  }

  double number(std::size_t row, const std::string& column) const { return std::stod(text(row, column)); }

  /// The row whose first cell is this.
  std::size_t row_of(const std::string& key) const {
    const auto found = std::find_if(rows_.begin(), rows_.end(), [&](const auto& row) { return row[0] == key; });
    if (found == rows_.end()) throw std::runtime_error(name_ + " has no row " + key);
    return static_cast<std::size_t>(found - rows_.begin());
  }

  /// The row whose first two cells are these, the certified files' way.
  double certified(const std::string& dataset, const std::string& quantity, const std::string& column) const {
    for (std::size_t row = 0; row < size(); ++row) {
      if (rows_[row][0] == dataset && rows_[row][1] == quantity) return number(row, column);
    }
    throw std::runtime_error(name_ + " has no " + quantity + " of " + dataset);
  }

 private:
  static std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    return cells;
  }

  std::string name_;
  std::vector<std::string> heading_;
  std::vector<std::vector<std::string>> rows_;
};

/// Log relative error: how many leading digits agree, at most 15.
inline double matching_digits(double computed, double certified) {
  if (computed == certified) return 15.0;
  const double error = certified == 0.0 ? std::abs(computed) : std::abs(computed - certified) / std::abs(certified);
  return std::min(15.0, -std::log10(error));
}

/// Half a unit of the last printed digit of a published number: 0.0035 gives 0.00005.
inline double half_last_place(const std::string& published) {
  const auto point = published.find('.');
  const auto decimals = point == std::string::npos ? 0 : published.size() - point - 1;
  return 0.5 * std::pow(10.0, -static_cast<double>(decimals)) * (1.0 + 1e-9);
}

}  // namespace brakewright::outside
