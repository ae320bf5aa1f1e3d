#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

/// Recordings as a tablet sends them.
namespace brakewright::calc {

/// Standard base64 of bytes.
inline std::string base64_of(const std::string& bytes) {
  static const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t gathered = 0;
    for (std::size_t j = 0; j < 3; ++j) {
      gathered = gathered << 8 | (i + j < bytes.size() ? static_cast<unsigned char>(bytes[i + j]) : 0U);
    }
    for (std::size_t j = 0; j < 4; ++j) {
      text += j > bytes.size() - i ? '=' : letters[(gathered >> (18 - 6 * j)) & 63];
    }
  }
  return text;
}

/// One channel of 16 bits; samples beyond +-1 are cut.
inline std::string wav_base64(const std::vector<double>& samples, std::uint32_t rate_hz) {
  std::string bytes = "RIFF....WAVEfmt ";
  const auto put = [&](std::uint32_t value, int count) {
    for (int i = 0; i < count; ++i) bytes += static_cast<char>(value >> (8 * i) & 255);
  };
  put(16, 4), put(1, 2), put(1, 2), put(rate_hz, 4), put(2 * rate_hz, 4), put(2, 2), put(16, 2);
  bytes += "data";
  put(static_cast<std::uint32_t>(2 * samples.size()), 4);
  for (const double sample : samples) {
    put(static_cast<std::uint32_t>(std::lround(32767 * std::clamp(sample, -1.0, 1.0))), 2);
  }
  return base64_of(bytes);
}

}  // namespace brakewright::calc
