#pragma once

#include <filesystem>
#include <memory>

#include "shop/doors/sessions.hpp"

namespace brakewright::store {

/// Who is signed in, in a small file of its own beside the shop, so that a program that was started again still knows
/// its tablets. No part of the record and in no backup: one that cannot be read is made anew, and everybody signs in
/// again. @param file  made when missing, for its owner alone
/// @throws shop::StoreError  when it can be neither used nor made anew
std::unique_ptr<shop::SessionBook> open_sessions(const std::filesystem::path& file);

/// "<shop file>.sessions".
std::filesystem::path sessions_beside(const std::filesystem::path& shop_file);

}  // namespace brakewright::store
