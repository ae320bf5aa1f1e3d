#include "server/page/page.hpp"

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <utility>

#include "server/page/assets.hpp"

namespace brakewright::server {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kPolicy =
    "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'self'; "
    "frame-ancestors 'none'";
constexpr std::string_view kKeepForEver = "public, max-age=31536000, immutable";
constexpr std::string_view kAskAgain = "no-cache";

constexpr auto kContentTypes = std::to_array<std::pair<std::string_view, std::string_view>>({
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".svg", "image/svg+xml"},
    {".png", "image/png"},
    {".ico", "image/x-icon"},
    {".json", "application/json"},
    {".webmanifest", "application/manifest+json"},
    {".woff2", "font/woff2"},
    {".woff", "font/woff"},
    {".txt", "text/plain; charset=utf-8"},
    {".wasm", "application/wasm"},
});

constexpr std::string_view kNoPage =
    "Brakewright runs, and its API answers under /api/v1, but this program was built without its page.\n"
    "Build it with -DBRAKEWRIGHT_WEB=ON, or start it with --web-dir and a folder that holds one.\n";

bool takes_gzip(const http::Request& request) {
  return request.header("accept-encoding").find("gzip") != std::string_view::npos;
}

bool is_file_name(const std::string& path) { return path.find('.', path.rfind('/')) != std::string::npos; }

http::Response page_response(const std::string& path) {
  http::Response response;
  response.content_type = content_type_of(path);
  response.content_policy = kPolicy;
  response.cache_control = path.starts_with("/assets/") ? kKeepForEver : kAskAgain;
  return response;
}

http::Response answer_with(const Asset& asset, const http::Request& request) {
  http::Response response = page_response(std::string(asset.path));
  response.headers = {{"ETag", std::string(asset.etag)}, {"Vary", "Accept-Encoding"}};
  if (request.header("if-none-match") == asset.etag) {
    response.status = 304;
    return response;
  }
  const bool packed = !asset.gzip.empty() && takes_gzip(request);
  if (packed) response.headers.emplace_back("Content-Encoding", "gzip");
  response.fixed_body = packed ? asset.gzip : asset.plain;
  return response;
}

const Asset* find_asset(std::string_view path) {
  const auto assets = embedded_assets();
  const auto found = std::find_if(assets.begin(), assets.end(), [&](const Asset& a) { return a.path == path; });
  return found == assets.end() ? nullptr : &*found;
}

/// The file of that address, if it really lies below the folder.
std::optional<fs::path> file_below(const fs::path& folder, const std::string& path) {
  std::error_code error;
  const fs::path root = fs::canonical(folder, error);
  if (error) return std::nullopt;
  const fs::path file = fs::canonical(root / path.substr(1), error);
  if (error || !fs::is_regular_file(file, error)) return std::nullopt;
  const auto [in_root, in_file] = std::mismatch(root.begin(), root.end(), file.begin(), file.end());
  return in_root == root.end() ? std::optional(file) : std::nullopt;
}

http::Response answer_from(const fs::path& folder, const std::string& path) {
  std::string wanted = path == "/" ? "/index.html" : path;
  auto file = file_below(folder, wanted);
  if (!file && !is_file_name(path)) {
    wanted = "/index.html";
    file = file_below(folder, wanted);
  }
  if (!file) throw http::Refusal(404, "no_such_address", "", "there is nothing at this address");
  http::Response response = page_response(wanted);
  response.cache_control = kAskAgain;
  std::ifstream stream(*file, std::ios::binary);
  response.body.assign(std::istreambuf_iterator<char>(stream), {});
  return response;
}

}  // namespace

std::string content_type_of(const std::string& path) {
  const auto found = std::find_if(kContentTypes.begin(), kContentTypes.end(),
                                  [&](const auto& entry) { return path.ends_with(entry.first); });
  return std::string(found == kContentTypes.end() ? "application/octet-stream" : found->second);
}

Page::Page(std::optional<fs::path> web_dir) : web_dir_(std::move(web_dir)) {}

http::Response Page::answer(const http::Request& request) const {
  if (request.method != "GET" && request.method != "HEAD") {
    throw http::Refusal(405, "wrong_method", "", "this address takes GET, HEAD", {{"Allow", "GET, HEAD"}});
  }
  if (web_dir_) return answer_from(*web_dir_, request.path);
  if (const Asset* asset = find_asset(request.path)) return answer_with(*asset, request);
  if (is_file_name(request.path)) {
    throw http::Refusal(404, "no_such_address", "", "there is nothing at this address");
  }
  if (const Asset* index = find_asset("/index.html")) return answer_with(*index, request);
  http::Response response;
  response.content_type = "text/plain; charset=utf-8";
  response.body = kNoPage;
  return response;
}

}  // namespace brakewright::server
