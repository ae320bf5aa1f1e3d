#pragma once

#include <stdexcept>
#include <string>
#include <utility>

namespace brakewright {

/// Input that its giver can mend: which field, and what is accepted there.
///
/// Everything the core refuses is refused with this type, so that a page, a command line and a program all
/// get the same sentence beside the same field.
class InputError : public std::runtime_error {
 public:
  /// @param code     stable word for programs: "missing", "wrong_type", "not_finite", "out_of_range",
  ///                 "unknown_field", "sizes_differ", "not_a_length", ...
  /// @param field    path of the value in the caller's own input, such as "readings[3].values_mm[0]"; empty for
  ///                 the input as a whole
  /// @param message  one sentence: what was wrong, and what is accepted
  InputError(std::string code, std::string field, const std::string& message)
      : std::runtime_error(message), code_(std::move(code)), field_(std::move(field)) {}

  const std::string& code() const { return code_; }
  const std::string& field() const { return field_; }

  /// The same refusal seen from one level further out: `outer` is put before the path.
  InputError within(const std::string& outer) const {
    const bool joined_by_dot = !field_.empty() && field_.front() != '[';
    return {code_, outer + (joined_by_dot ? "." : "") + field_, what()};
  }

 private:
  std::string code_;
  std::string field_;
};

}  // namespace brakewright
