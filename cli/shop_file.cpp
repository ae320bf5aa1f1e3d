#include "cli/shop_file.hpp"

#include <sodium.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <system_error>

#include "server/routes/assessment.hpp"
#include "store/sqlite_school.hpp"

namespace brakewright::cli {
namespace fs = std::filesystem;

namespace {

shop::UtcTime now() { return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now()); }

OpenShop open(const fs::path& file, bool read_only) {
  OpenShop opened;
  opened.store =
      store::open_store({.file = file, .backups = backup_folder(file), .read_only = read_only, .now = now()});
  opened.shop = std::make_unique<shop::Shop>(*opened.store, surroundings());
  opened.school_store = store::open_school(*opened.store);
  opened.school = std::make_unique<shop::School>(*opened.shop, *opened.school_store, now);
  return opened;
}

}  // namespace

shop::Surroundings surroundings() {
  if (sodium_init() < 0) throw std::runtime_error("the system gives no random bytes");
  return {.now = now,
          .random = [](std::span<std::uint8_t> bytes) { randombytes_buf(bytes.data(), bytes.size()); },
          .verdict_json = server::verdict_json};
}

fs::path backup_folder(const fs::path& file) { return file.parent_path() / (file.stem().string() + "-backups"); }

OpenShop open_to_read(const fs::path& file) {
  if (!fs::exists(file)) {
    throw InputError("no_such_file", "shop",
                     "there is no shop in " + file.string() + "; name another with --shop FILE");
  }
  return open(file, true);
}

OpenShop open_to_write(const fs::path& file) {
  if (file.has_parent_path()) fs::create_directories(file.parent_path());
  return open(file, false);
}

shop::JobFile job_named(shop::Shop& shop, const std::string& name) {
  const InputError none("no_such_job", "job",
                        "there is no job " + name.substr(0, 60) + "; a number such as 17, or an id, is accepted");
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number);
  try {
    if (error == std::errc() && end == name.data() + name.size()) return shop.job_file_by_number(number);
    return shop.job_file(shop::parse_uuid(name));
  } catch (const InputError&) {
    throw none;
  }
}

shop::Person person_named(shop::Shop& shop, const std::string& name, const std::string& field) {
  std::string known;
  for (const shop::Person& one : shop.people()) {
    if (!one.active) continue;
    if (one.name == name || shop::to_text(one.id) == name) return one;
    known += (known.empty() ? "" : ", ") + one.name;
  }
  throw InputError("no_such_person", field, "the shop knows " + (known.empty() ? "nobody yet" : known));
}

std::string read_whole(const fs::path& file, std::size_t most_bytes) {
  std::ifstream opened;
  if (file != "-") {
    opened.open(file, std::ios::binary);
    if (!opened || fs::is_directory(file)) throw InputError("no_such_file", "", file.string() + " cannot be read");
  }
  std::istream& in = file == "-" ? std::cin : opened;
  std::string bytes;
  std::string part(1 << 16, '\0');
  while (in.read(part.data(), static_cast<std::streamsize>(part.size())) || in.gcount() > 0) {
    bytes.append(part.data(), static_cast<std::size_t>(in.gcount()));
    if (bytes.size() > most_bytes) {
      throw InputError("too_large", "", "no more than " + std::to_string(most_bytes) + " bytes are read");
    }
  }
  return bytes;
}

void write_whole(const fs::path& file, const std::string& bytes) {
  const auto fail = [&](const std::string& what) {
    const int cause = errno;
    throw std::system_error(cause, std::generic_category(), what);
  };
  if (file.empty() || file == "-") {
    std::cout.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!std::cout.flush()) fail("standard output");
    return;
  }
  const fs::path part = file.string() + ".part";
  {
    std::ofstream out(part, std::ios::binary | std::ios::trunc);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!out.flush()) {
      const int cause = errno;
      std::error_code ignored;
      fs::remove(part, ignored);
      errno = cause;
      fail(file.string());
    }
  }
  fs::rename(part, file);
}

}  // namespace brakewright::cli
