#pragma once

#include <filesystem>
#include <optional>

#include "server/http/message.hpp"

namespace brakewright::server {

/// Answers everything that is not the API: the files of the page, out of the program itself or, in development, out of
/// a folder. Addresses that are no file are places within the page and get its index.html; an address whose last part
/// has a dot is a file that is not there.
class Page {
 public:
  /// @param web_dir  folder to serve in place of what is inside the program; read anew at each request
  explicit Page(std::optional<std::filesystem::path> web_dir = {});

  /// Files under /assets/ carry their hash in their name and may be kept for ever; others are asked for again, and
  /// answered with 304 when they are the same.
  /// @throws http::Refusal 404 "no_such_address", 405 "wrong_method"
  http::Response answer(const http::Request& request) const;

 private:
  std::optional<std::filesystem::path> web_dir_;
};

/// "text/css; charset=utf-8" for "/assets/a.css"; bytes of unknown kind for endings that no page needs.
std::string content_type_of(const std::string& path);

}  // namespace brakewright::server
