#include "core/recording/wav.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <optional>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr std::uint16_t kPcm = 1, kFloat = 3, kExtensible = 0xFFFE;
constexpr std::size_t kMostSamples = 48'000'000;

[[noreturn]] void refuse(const char* code, const char* message) { throw InputError(code, "", message); }

struct Format {
  std::uint16_t kind = 0, channels = 0, bits = 0;
  std::uint32_t rate_hz = 0;

  std::size_t sample_bytes() const { return bits / 8; }
};

std::uint32_t number(std::span<const std::uint8_t> bytes, std::size_t count) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < count; ++i) value |= static_cast<std::uint32_t>(bytes[i]) << (8 * i);
  return value;
}

bool is(std::span<const std::uint8_t> bytes, const char* word) { return std::memcmp(bytes.data(), word, 4) == 0; }

Format format_of(std::span<const std::uint8_t> chunk) {
  if (chunk.size() < 16) refuse("not_a_recording", "its fmt chunk is too short");
  Format format{.kind = static_cast<std::uint16_t>(number(chunk.subspan(0), 2)),
                .channels = static_cast<std::uint16_t>(number(chunk.subspan(2), 2)),
                .bits = static_cast<std::uint16_t>(number(chunk.subspan(14), 2)),
                .rate_hz = number(chunk.subspan(4), 4)};
  if (format.kind == kExtensible && chunk.size() >= 26) {
    format.kind = static_cast<std::uint16_t>(number(chunk.subspan(24), 2));
  }
  const bool pcm =
      format.kind == kPcm && (format.bits == 8 || format.bits == 16 || format.bits == 24 || format.bits == 32);
  if (!pcm && !(format.kind == kFloat && format.bits == 32)) {
    refuse("not_a_recording",
           "PCM of 8, 16, 24 or 32 bits or float of 32 bits is accepted: save the recording as such");
  }
  if (format.channels < 1 || format.channels > 8) refuse("out_of_range", "from one to eight channels");
  if (format.rate_hz < 100 || format.rate_hz > 400000) refuse("out_of_range", "from 100 to 400000 samples a second");
  return format;
}

double sample(std::span<const std::uint8_t> bytes, const Format& format) {
  const std::uint32_t raw = number(bytes, format.sample_bytes());
  if (format.kind == kFloat) return static_cast<double>(std::bit_cast<float>(raw));
  if (format.bits == 8) return (static_cast<double>(raw) - 128) / 128;
  const std::uint32_t up = raw << (32 - format.bits);
  return static_cast<double>(static_cast<std::int32_t>(up)) / 2147483648.0;
}

std::vector<double> samples_of(std::span<const std::uint8_t> data, const Format& format) {
  const std::size_t step = format.sample_bytes() * format.channels, count = data.size() / step;
  if (count > kMostSamples || static_cast<double>(count) > 600.0 * format.rate_hz) {
    refuse("out_of_range", "at most ten minutes");
  }
  if (count < format.rate_hz) refuse("too_few", "one second or more is needed");
  std::vector<double> samples(count, 0);
  double largest = 1;
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t c = 0; c < format.channels; ++c) {
      samples[i] += sample(data.subspan(i * step + c * format.sample_bytes()), format) / format.channels;
    }
    if (!std::isfinite(samples[i])) refuse("not_finite", "it holds samples that are no numbers");
    largest = std::max(largest, std::abs(samples[i]));
  }
  for (double& value : samples) value /= largest;
  return samples;
}

}  // namespace

Recording read_wav(std::span<const std::uint8_t> bytes) {
  if (bytes.size() < 12 || !is(bytes, "RIFF") || !is(bytes.subspan(8), "WAVE")) {
    refuse("not_a_recording", "a WAV file (RIFF/WAVE) is accepted");
  }
  std::optional<Format> format;
  for (std::size_t at = 12; bytes.size() - at >= 8;) {
    const auto head = bytes.subspan(at);
    const std::size_t claimed = number(head.subspan(4), 4);
    const auto body = head.subspan(8, std::min(claimed, head.size() - 8));
    if (is(head, "fmt ")) format = format_of(body);
    if (is(head, "data")) {
      if (!format) refuse("not_a_recording", "its data stand before their format");
      return {.rate_hz = static_cast<double>(format->rate_hz), .samples = samples_of(body, *format)};
    }
    const std::size_t padded = body.size() + body.size() % 2;
    if (padded >= head.size() - 8) break;
    at += 8 + padded;
  }
  refuse("not_a_recording", "it holds no data");
}

}  // namespace brakewright
