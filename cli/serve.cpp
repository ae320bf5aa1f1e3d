#include "server/serve.hpp"

#include <iostream>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "shop/demo/demo.hpp"

namespace brakewright::cli {

int serve(const ServeOptions& options) {
  if (options.shop.has_parent_path()) std::filesystem::create_directories(options.shop.parent_path());
  server::ServeOptions wanted;
  wanted.database = options.shop;
  wanted.backups = backup_folder(options.shop);
  wanted.port = options.port;
  wanted.lan = options.lan;
  wanted.https = options.https;
  wanted.version = BRAKEWRIGHT_VERSION;
  wanted.open_practice_job = [](shop::Shop& shop, const shop::Uuid& by) {
    const auto around = surroundings();
    std::uint64_t seed = 0;
    around.random({reinterpret_cast<std::uint8_t*>(&seed), sizeof(seed)});
    return shop::open_practice_job(shop, by, seed, around.now());
  };
  try {
    server::serve(wanted, std::cout);
  } catch (const http::CannotListen& error) {
    std::cerr << "brakewright: " << error.what() << '\n';
    return port_taken;
  }
  return done;
}

}  // namespace brakewright::cli
