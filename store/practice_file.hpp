#pragma once

#include <filesystem>
#include <memory>

#include "shop/practice/book.hpp"

namespace brakewright::store {

/// The acts of runs that are not ended, in a file of their own beside the shop: several a second of a whole class, each
/// on the disk before it is answered, and none of them worth an entry of the journal by itself. Acts that come while
/// the disk is busy share the next wait for it; one that is refused for itself, under a number that is taken, fails
/// alone and says of which run it was. In no backup; a file that cannot be read is put aside (`<file>.damaged`) and a
/// new one begun, while rows of it that name no run are dropped by themselves.
/// @param file  made when missing, for its owner alone; ":memory:" for one that ends with the object
/// @throws shop::StoreError  when it can be neither used nor made anew
std::unique_ptr<shop::PracticeBook> open_practice_book(const std::filesystem::path& file);

/// "<shop file>.practice".
std::filesystem::path practice_beside(const std::filesystem::path& shop_file);

}  // namespace brakewright::store
