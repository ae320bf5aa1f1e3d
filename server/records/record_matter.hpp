#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "report/record.hpp"
#include "shop/assess.hpp"
#include "shop/shop.hpp"

/// Records of a shop's jobs: what they are drawn from, and the drawing of them.
namespace brakewright::server {

/// How a record is printed.
struct Printing {
  shop::UtcTime printed_at = {};
  std::string address = {};  ///< of the shop on its network, without the job; empty: no code is drawn
  /// Of a job the entry that sealed it, and the journal's newest one; the shop's own when left out.
  std::function<std::optional<shop::JournalHead>(const shop::Uuid& job_id)> seal_entry = {};
  std::optional<shop::JournalHead> newest_entry = {};
};

/// All that a record speaks of, held while it is drawn.
struct RecordMatter {
  shop::JobFile file;
  shop::Assessment assessment;
  std::vector<shop::Person> people;
  std::vector<shop::Instrument> instruments;
  std::vector<shop::Lathe> lathes;
  std::vector<shop::ZeroCheck> zero_checks;
  std::vector<shop::Piece> pieces;
  std::vector<shop::Insert> inserts;
  std::vector<shop::TaperPlate> taper_plates;
  std::vector<shop::Job> beside;
  shop::Settings settings;
  std::string job_url;
  shop::UtcTime printed_at;
  std::optional<shop::JournalHead> seal_entry;
  shop::JournalHead newest_entry;

  report::RecordInput input() const;  ///< refers to this
};

/// As the shop is at one moment. @throws RuleError "unknown_job"
RecordMatter record_matter(shop::Shop& shop, const shop::Uuid& job_id, const Printing& printing);

/// The record of a job, or of all jobs of its vehicle, as PDF. @param paper  the shop's own when left out
std::string record_file(shop::Shop& shop, const shop::Uuid& job_id, bool vehicle, std::optional<shop::Paper> paper,
                        const Printing& printing);

}  // namespace brakewright::server
