#include "shop/demo/demo.hpp"

#include <fmt/core.h>
#include <unistd.h>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "shop/demo/classes.hpp"
#include "shop/demo/practice.hpp"
#include "store/key_file.hpp"
#include "store/practice_file.hpp"
#include "store/secret_table.hpp"
#include "store/sqlite_practice.hpp"

namespace brakewright::cli {
namespace fs = std::filesystem;

int demo(const DemoOptions& options) {
  if (fs::exists(options.shop) && open_to_read(options.shop).shop->last_seq() > 0) {
    throw InputError(
        "not_empty", "shop",
        options.shop.string() + " is a shop with something in it; invented jobs are put into a new one only");
  }
  // Made beside and moved into place when whole, so that a demo that was broken off leaves nothing behind.
  const fs::path part = options.shop.string() + ".part" + std::to_string(::getpid());
  {
    auto opened = open_to_write(part);
    const auto around = surroundings();
    const auto now = around.now();
    shop::make_demo(*opened.store, options.seed, now, around.verdict_json);
    shop::make_demo_school(*opened.store, *opened.school_store, options.seed, now);
    shop::make_demo_practice(*opened.store, *store::open_practice(*opened.store),
                             *store::open_practice_book(":memory:"), options.seed, now);
    shop::close_demo_doors(*opened.store, *store::secrets_of(*opened.store), options.seed, now);
  }
  for (const char* ending : {"-wal", "-shm", ".lock"}) fs::remove(part.string() + ending);
  fs::rename(store::key_file_of(part), store::key_file_of(options.shop));
  fs::rename(part, options.shop);
  fmt::print("{} holds an invented shop\n", options.shop.string());
  return done;
}

}  // namespace brakewright::cli
