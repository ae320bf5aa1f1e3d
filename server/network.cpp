#include "server/network.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <qrencode.h>
#include <unistd.h>

#include <algorithm>
#include <cstdint>
#include <memory>
#include <stdexcept>

namespace brakewright::server {
namespace {

constexpr int kQuietModules = 2;

bool is_private(std::uint32_t address) {
  return address >> 24 == 10 || address >> 20 == 0xac1 || address >> 16 == 0xc0a8;
}

bool is_link_local(std::uint32_t address) { return address >> 16 == 0xa9fe; }

std::string lower(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

}  // namespace

std::vector<std::string> network_addresses() {
  ifaddrs* first = nullptr;
  if (::getifaddrs(&first) != 0) return {};
  const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> owner(first, ::freeifaddrs);
  std::vector<std::uint32_t> found;
  for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
    const bool usable = one->ifa_addr != nullptr && one->ifa_addr->sa_family == AF_INET &&
                        (one->ifa_flags & IFF_UP) != 0 && (one->ifa_flags & IFF_LOOPBACK) == 0;
    if (!usable) continue;
    const std::uint32_t address = ntohl(reinterpret_cast<const sockaddr_in*>(one->ifa_addr)->sin_addr.s_addr);
    if (!is_link_local(address)) found.push_back(address);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](std::uint32_t a, std::uint32_t b) { return is_private(a) && !is_private(b); });
  std::vector<std::string> texts;
  for (const std::uint32_t address : found) {
    char text[INET_ADDRSTRLEN];
    const in_addr bytes{.s_addr = htonl(address)};
    texts.emplace_back(::inet_ntop(AF_INET, &bytes, text, sizeof text));
  }
  return texts;
}

std::vector<std::string> machine_names() {
  char name[256] = {};
  if (::gethostname(name, sizeof name - 1) != 0 || name[0] == '\0') return {};
  const std::string whole = lower(name);
  const std::string first = whole.substr(0, whole.find('.'));
  std::vector<std::string> names = {whole, first + ".local"};
  if (first != whole) names.push_back(first);
  return names;
}

std::string qr_for_terminal(const std::string& text) {
  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M),
                                                        QRcode_free);
  if (!code) throw std::runtime_error("this text does not fit into a QR code");
  const auto light = [&](int row, int column) {
    if (row < 0 || column < 0 || row >= code->width || column >= code->width) return true;
    return (code->data[row * code->width + column] & 1) == 0;
  };
  std::string picture;
  for (int row = -kQuietModules; row < code->width + kQuietModules; row += 2) {
    for (int column = -kQuietModules; column < code->width + kQuietModules; ++column) {
      const bool above = light(row, column);
      const bool below = light(row + 1, column);
      picture += above && below ? "\u2588" : above ? "\u2580" : below ? "\u2584" : " ";
    }
    picture += '\n';
  }
  return picture;
}

}  // namespace brakewright::server
