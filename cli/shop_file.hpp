#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "shop/school/school.hpp"
#include "shop/school/store.hpp"
#include "shop/shop.hpp"
#include "store/open.hpp"

namespace brakewright::cli {

/// The clock of this machine and the dice of the system.
shop::Surroundings surroundings();

/// Where backups of a shop's file are kept: "shop-backups" beside "shop.sqlite".
std::filesystem::path backup_folder(const std::filesystem::path& file);

/// A shop's file, opened. Reading goes on beside a running server; writing wants the file for itself.
struct OpenShop {
  std::unique_ptr<shop::Store> store;
  std::unique_ptr<shop::Shop> shop;
  std::unique_ptr<shop::SchoolStore> school_store;
  std::unique_ptr<shop::School> school;  ///< tells the shop how well people read
};

/// @throws InputError "no_such_file" (field "shop"); StoreError
OpenShop open_to_read(const std::filesystem::path& file);

/// Opens for writing and makes the file, and its folder, when missing.
/// @throws StoreError
OpenShop open_to_write(const std::filesystem::path& file);

/// The job of a number or an id. @throws InputError "no_such_job" (field "job")
shop::JobFile job_named(shop::Shop& shop, const std::string& name);

/// Somebody active, by name or id. @throws InputError "no_such_person" at `field`, with who there is
shop::Person person_named(shop::Shop& shop, const std::string& name, const std::string& field);

/// Reads a whole file, or standard input for "-". @throws InputError "no_such_file", "too_large"
std::string read_whole(const std::filesystem::path& file, std::size_t most_bytes);

/// Writes a file whole or not at all, or to standard output for "-" and the empty path.
/// @throws std::system_error
void write_whole(const std::filesystem::path& file, const std::string& bytes);

}  // namespace brakewright::cli
