#pragma once

#include <sys/socket.h>

#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/ssl/stream.hpp>
#include <memory>
#include <utility>

/// Inside of the server; included by its own sources only.
namespace brakewright::http {

/// What bytes come and go on: a socket, as it is or within TLS.
class Wire {
 public:
  using Socket = boost::asio::ip::tcp::socket;
  using executor_type = Socket::executor_type;

  explicit Wire(Socket socket) : plain_(std::make_unique<Socket>(std::move(socket))) {}

  Socket& socket() { return tls_ ? tls_->next_layer() : *plain_; }
  executor_type get_executor() { return socket().get_executor(); }
  bool is_secure() const { return tls_ != nullptr; }

  /// Whether the first byte that waits to be read begins a TLS handshake (RFC 8446, 5.1: content type 22).
  bool begins_with_tls() {
    constexpr unsigned char kHandshake = 22;
    unsigned char first = 0;
    return ::recv(socket().native_handle(), &first, 1, MSG_PEEK | MSG_DONTWAIT) == 1 && first == kHandshake;
  }

  /// Speaks TLS from now on, once the handshake has ended well.
  template <class Handler>
  void secure(boost::asio::ssl::context& context, Handler&& handler) {
    tls_ = std::make_unique<boost::asio::ssl::stream<Socket>>(std::move(*plain_), context);
    plain_.reset();
    tls_->async_handshake(boost::asio::ssl::stream_base::server, std::forward<Handler>(handler));
  }

  template <class Buffers, class Handler>
  void async_read_some(const Buffers& buffers, Handler&& handler) {
    tls_ ? tls_->async_read_some(buffers, std::forward<Handler>(handler))
         : plain_->async_read_some(buffers, std::forward<Handler>(handler));
  }

  template <class Buffers, class Handler>
  void async_write_some(const Buffers& buffers, Handler&& handler) {
    tls_ ? tls_->async_write_some(buffers, std::forward<Handler>(handler))
         : plain_->async_write_some(buffers, std::forward<Handler>(handler));
  }

 private:
  std::unique_ptr<Socket> plain_;
  std::unique_ptr<boost::asio::ssl::stream<Socket>> tls_;
};

}  // namespace brakewright::http
