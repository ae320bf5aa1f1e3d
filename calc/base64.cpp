#include "calc/base64.hpp"

#include <array>

#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

constexpr int kNone = -1;

std::array<int, 256> make_values() {
  std::array<int, 256> values{};
  values.fill(kNone);
  int next = 0;
  for (const char letter : std::string("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/")) {
    values[static_cast<unsigned char>(letter)] = next++;
  }
  return values;
}

}  // namespace

std::vector<std::uint8_t> bytes_of_base64(const std::string& text, const std::string& path) {
  static const auto values = make_values();
  const auto refuse = [&] { throw InputError("not_base64", path, "base64 text of the file is accepted"); };
  std::size_t at = 0;
  if (text.rfind("data:", 0) == 0) {
    const auto comma = text.find(";base64,");
    if (comma == std::string::npos) refuse();
    at = comma + 8;
  }
  std::vector<std::uint8_t> bytes;
  bytes.reserve((text.size() - at) / 4 * 3);
  std::uint32_t gathered = 0;
  int letters = 0, padding = 0;
  for (; at < text.size(); ++at) {
    const char letter = text[at];
    if (letter == '\r' || letter == '\n') continue;
    const int value = values[static_cast<unsigned char>(letter)];
    if (letter == '=') {
      ++padding;
    } else if (value == kNone || padding > 0) {
      refuse();
    }
    gathered = (gathered << 6) | static_cast<std::uint32_t>(letter == '=' ? 0 : value);
    if (++letters < 4) continue;
    if (padding > 2) refuse();
    for (int i = 0; i < 3 - padding; ++i) bytes.push_back(static_cast<std::uint8_t>(gathered >> (16 - 8 * i)));
    gathered = 0;
    letters = 0;
  }
  if (letters != 0) refuse();
  return bytes;
}

}  // namespace brakewright::calc
