#pragma once

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstring>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

/// A client that can misbehave: it sends the bytes that it is given, when it is told, over the loopback only.
namespace brakewright::test {

struct Answer {
  int status = 0;
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;
};

class RawClient {
 public:
  static constexpr int kPatienceMs = 20'000;

  /// @param room_bytes  how much the system may hold for us unread; 0: as much as it likes
  explicit RawClient(std::uint16_t port, const char* from = "127.0.0.1", int room_bytes = 0) : port_(port) {
    socket_ = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (room_bytes > 0) ::setsockopt(socket_, SOL_SOCKET, SO_RCVBUF, &room_bytes, sizeof room_bytes);
    sockaddr_in mine{};
    mine.sin_family = AF_INET;
    ::inet_pton(AF_INET, from, &mine.sin_addr);
    if (::bind(socket_, reinterpret_cast<sockaddr*>(&mine), sizeof mine) != 0) throw std::runtime_error("bind");
    sockaddr_in there = mine;
    ::inet_pton(AF_INET, "127.0.0.1", &there.sin_addr);
    there.sin_port = htons(port);
    if (::connect(socket_, reinterpret_cast<sockaddr*>(&there), sizeof there) != 0) throw std::runtime_error("connect");
  }
  ~RawClient() { ::close(socket_); }
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;

  /// Sends all of it, or as much as the server takes before it hangs up. @return whether all went
  bool send(std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }

  void end_sending() { ::shutdown(socket_, SHUT_WR); }

  /// One whole answer. @throws std::runtime_error  when the server hangs up or says nothing for long
  Answer answer(bool to_head = false) {
    while (held_.find("\r\n\r\n") == std::string::npos) more();
    Answer result;
    const std::size_t end = held_.find("\r\n\r\n");
    result.status = std::stoi(held_.substr(9, 3));
    std::size_t line = held_.find("\r\n") + 2;
    while (line < end + 2) {
      const std::size_t stop = held_.find("\r\n", line);
      const std::size_t colon = held_.find(": ", line);
      std::string name = held_.substr(line, colon - line);
      std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return std::tolower(c); });
      result.headers[name] = held_.substr(colon + 2, stop - colon - 2);
      line = stop + 2;
    }
    held_.erase(0, end + 4);
    const auto length = result.headers.find("content-length");
    if (to_head || result.status == 304 || length == result.headers.end()) return result;
    const std::size_t size = std::stoul(length->second);
    while (held_.size() < size) more();
    result.body = held_.substr(0, size);
    held_.erase(0, size);
    return result;
  }

  Answer get(const std::string& target, const std::string& more_headers = "") {
    send("GET " + target + " HTTP/1.1\r\nHost: " + host() + "\r\n" + more_headers + "\r\n");
    return answer();
  }

  Answer write(const std::string& method, const std::string& target, const std::string& body,
               const std::string& content_type = "application/json") {
    send(method + " " + target + " HTTP/1.1\r\nHost: " + host() + "\r\n" +
         (body.empty() ? "" : "Content-Type: " + content_type + "\r\n") +
         "Content-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body);
    return answer();
  }

  /// Everything up to and including that text, out of a stream.
  std::string until(std::string_view text) {
    std::size_t found;
    std::size_t searched = 0;
    while ((found = held_.find(text, searched)) == std::string::npos) {
      searched = held_.size() < text.size() ? 0 : held_.size() - text.size();
      more();
    }
    std::string result = held_.substr(0, found + text.size());
    held_.erase(0, found + text.size());
    return result;
  }

  /// Waits, without reading, for the server to cut the connection. @return whether it did
  bool cut_off() {
    pollfd wait{.fd = socket_, .events = POLLRDHUP, .revents = 0};
    return ::poll(&wait, 1, kPatienceMs) > 0;
  }

  /// Waits for the server to hang up. @return whether it did
  bool hung_up() {
    try {
      for (;;) more();
    } catch (const HungUp&) {
      return true;
    } catch (const std::runtime_error&) {
      return false;
    }
  }

  std::string host() const { return "127.0.0.1:" + std::to_string(port_); }

 private:
  struct HungUp : std::runtime_error {
    HungUp() : std::runtime_error("the server hung up") {}
  };

  void more() {
    pollfd wait{.fd = socket_, .events = POLLIN, .revents = 0};
    if (::poll(&wait, 1, kPatienceMs) <= 0) throw std::runtime_error("the server says nothing; held: " + held_);
    char bytes[16'384];
    const ssize_t got = ::recv(socket_, bytes, sizeof bytes, 0);
    if (got <= 0) throw HungUp();
    held_.append(bytes, static_cast<std::size_t>(got));
  }

  int socket_;
  std::uint16_t port_;
  std::string held_;
};

}  // namespace brakewright::test
