#pragma once

#include <string>
#include <vector>

#include "report/carried/carried.hpp"
#include "server/records/record_check.hpp"

/// What a check of a record says, in sentences.
namespace brakewright::server {

/// "entry 1204".
std::string entry_name(std::int64_t seq);

std::vector<std::string> words_of_unsealed(const report::Carried& carried);

/// @param why  empty for who may not know it
std::vector<std::string> words_of_missing(const report::Carried& carried, const std::string& why);
std::vector<std::string> words_of_unproven(const report::Carried& carried, const std::string& why);

struct Finding {
  bool same = false;               ///< byte for byte
  bool odd_time = false;           ///< printed at a time that does not fit the journal
  bool erased_since = false;       ///< a name was erased since it was printed
  std::string other_address = {};  ///< that it leads to, unless it is the shop's of now
};
std::vector<std::string> words_of_found(const report::Carried& carried, const std::vector<CheckedJob>& jobs,
                                        const Finding& finding);

}  // namespace brakewright::server
