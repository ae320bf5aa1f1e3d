#include "server/page/page.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "server/page/assets.hpp"

namespace brakewright::server {
namespace {

namespace fs = std::filesystem;

http::Request asking_for(const std::string& path, http::Headers headers = {}) {
  http::Request request;
  request.method = "GET";
  request.path = path;
  request.headers = std::move(headers);
  return request;
}

int status_of(const Page& page, const http::Request& request) {
  try {
    return page.answer(request).status;
  } catch (const http::Refusal& refusal) {
    return refusal.status();
  }
}

/// A folder with a page in it, and something beside it that is nobody's business.
class PageFolder : public ::testing::Test {
 protected:
  PageFolder() : root_(fs::temp_directory_path() / ("brakewright-page-" + std::to_string(::getpid()))) {
    fs::create_directories(root_ / "dist" / "assets");
    write("dist/index.html", "<p>page</p>");
    write("dist/assets/a-12345678.js", "run()");
    write("beside.txt", "secret");
    fs::create_symlink(root_ / "beside.txt", root_ / "dist" / "link.txt");
  }
  ~PageFolder() override { fs::remove_all(root_); }

  void write(const std::string& name, const std::string& text) { std::ofstream(root_ / name) << text; }

  fs::path root_;
};

TEST_F(PageFolder, ServesFilesAndGivesItsOwnPlacesTheIndex) {
  const Page page(root_ / "dist");
  EXPECT_EQ(page.answer(asking_for("/")).body, "<p>page</p>");
  EXPECT_EQ(page.answer(asking_for("/jobs/12/before")).body, "<p>page</p>");
  EXPECT_EQ(page.answer(asking_for("/assets/a-12345678.js")).content_type, "text/javascript; charset=utf-8");
  EXPECT_EQ(status_of(page, asking_for("/assets/b.js")), 404);
  EXPECT_EQ(status_of(page, asking_for("/assets")), 200) << "a folder is no file, so it is a place of the page";
}

TEST_F(PageFolder, ServesNothingBesideIt) {
  const Page page(root_ / "dist");
  EXPECT_EQ(status_of(page, asking_for("/../beside.txt")), 404);
  EXPECT_EQ(status_of(page, asking_for("/link.txt")), 404) << "a link that leads out";
  EXPECT_EQ(status_of(page, asking_for(std::string("/") + (root_ / "beside.txt").string())), 404);
}

TEST_F(PageFolder, TakesNoWrites) {
  http::Request request = asking_for("/");
  request.method = "POST";
  EXPECT_EQ(status_of(Page(root_ / "dist"), request), 405);
}

TEST(Page, AllowsNoScriptButItsOwn) {
  const http::Response response = Page().answer(asking_for("/"));
  if (embedded_assets().empty()) {
    EXPECT_NE(response.body.find("without its page"), std::string::npos);
    return;
  }
  EXPECT_EQ(response.content_policy->find("unsafe"), std::string::npos);
  EXPECT_NE(response.content_policy->find("default-src 'self'"), std::string::npos);
}

TEST(Page, KeepsHashedFilesForEverAndAsksAgainForTheRest) {
  for (const Asset& asset : embedded_assets()) {
    const std::string path(asset.path);
    const http::Response response = Page().answer(asking_for(path, {{"accept-encoding", "gzip, br"}}));
    EXPECT_EQ(response.content(), asset.gzip.empty() ? asset.plain : asset.gzip) << path;
    EXPECT_EQ(response.cache_control->find("immutable") != std::string::npos, path.starts_with("/assets/")) << path;
    EXPECT_EQ(Page().answer(asking_for(path)).content(), asset.plain) << path;
    const http::Headers known = {{"if-none-match", std::string(asset.etag)}};
    EXPECT_EQ(Page().answer(asking_for(path, known)).status, 304) << path;
  }
}

}  // namespace
}  // namespace brakewright::server
