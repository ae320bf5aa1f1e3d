#include "core/gauge_study/check.hpp"

#include <cmath>
#include <set>

#include "core/input_error.hpp"

namespace brakewright::gauge_study {
namespace {

constexpr std::size_t kMostRows = 100'000;

void want_finite(double value, const std::string& field) {
  if (!std::isfinite(value)) throw InputError("not_finite", field, "a finite number is needed here");
}

void want_name(const std::string& name, const std::string& field) {
  if (name.empty()) throw InputError("missing", field, "a name is needed here");
}

void check_rows(const std::vector<Row>& rows) {
  if (rows.empty()) throw InputError("missing", "rows", "readings of two parts or more are needed");
  if (rows.size() > kMostRows) throw InputError("too_many", "rows", "at most 100000 readings");
  const bool named = rows.front().instrument.has_value();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::string field = "rows[" + std::to_string(i) + "].";
    want_name(rows[i].part, field + "part");
    want_name(rows[i].operator_name, field + "operator");
    want_finite(rows[i].value, field + "value");
    if (rows[i].instrument.has_value() != named) {
      const std::size_t without = named ? i : 0;
      throw InputError("missing", "rows[" + std::to_string(without) + "].instrument",
                       "the instrument is named on all rows or on none");
    }
    if (named) want_name(*rows[i].instrument, field + "instrument");
  }
}

void check_references(const Input& input) {
  std::set<std::string> parts, given;
  for (const Row& row : input.rows) parts.insert(row.part);
  for (std::size_t i = 0; i < input.references.size(); ++i) {
    const Reference& reference = input.references[i];
    const std::string field = "references[" + std::to_string(i) + "].";
    if (parts.count(reference.part) == 0) {
      throw InputError("out_of_range", field + "part", "a part that stands in the rows");
    }
    if (!given.insert(reference.part).second) {
      throw InputError("duplicate", field + "part", "one reference for each part");
    }
    want_finite(reference.value, field + "value");
    want_finite(reference.u, field + "u");
    if (reference.u < 0) throw InputError("out_of_range", field + "u", "a standard uncertainty, 0 or more");
  }
}

}  // namespace

void check(const Input& input) {
  check_rows(input.rows);
  check_references(input);
  if (input.tolerance) {
    want_finite(*input.tolerance, "tolerance");
    if (*input.tolerance <= 0) throw InputError("out_of_range", "tolerance", "its whole width, more than 0");
  }
  want_finite(input.alpha_pool, "alpha_pool");
  if (input.alpha_pool < 0 || input.alpha_pool > 1) throw InputError("out_of_range", "alpha_pool", "from 0 to 1");
  want_finite(input.u_instrument, "u_instrument");
  if (input.u_instrument < 0) {
    throw InputError("out_of_range", "u_instrument", "a standard uncertainty, 0 or more");
  }
  if (input.draws < 1000 || input.draws > 200'000) {
    throw InputError("out_of_range", "draws", "from 1000 to 200000");
  }
}

}  // namespace brakewright::gauge_study
