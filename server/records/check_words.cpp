#include "server/records/check_words.hpp"

#include <algorithm>

namespace brakewright::server {
namespace {

using report::Carried;
using report::CarriedJob;

/// "job 41", "jobs 41, 42 and 43".
template <class Jobs, class Wanted>
std::string jobs_name(const Jobs& jobs, Wanted&& wanted) {
  std::vector<std::string> numbers;
  for (const auto& job : jobs) {
    if (wanted(job)) numbers.push_back(std::to_string(job.number));
  }
  std::string text = numbers.size() == 1 ? "job " : "jobs ";
  for (std::size_t k = 0; k < numbers.size(); ++k) {
    text += (k == 0 ? "" : k + 1 == numbers.size() ? " and " : ", ") + numbers[k];
  }
  return text;
}

std::string jobs_name(const Carried& carried) {
  return jobs_name(carried.jobs, [](const CarriedJob&) { return true; });
}

/// "2026-03-04 11:42 UTC".
std::string moment(shop::UtcTime time) {
  std::string text = shop::to_text(time).substr(0, 16);
  text[10] = ' ';
  return text + " UTC";
}

std::string words_of_seal(const CheckedJob& job) {
  std::string text = "Job " + std::to_string(job.number) + " was sealed";
  if (!job.sealed_by.empty()) text += " by " + job.sealed_by;
  if (job.sealed_at) text += " on " + moment(*job.sealed_at);
  return text + ", in " + entry_name(job.seal_entry) + " of the journal.";
}

std::string words_of_proof(const Carried& carried) {
  return "The journal is whole from its first entry up to " + entry_name(carried.newest_entry) +
         ", the newest when this was printed; the seal and the journal's end are signed with the shop's key.";
}

std::string words_of_difference(const Finding& finding) {
  std::string text =
      "Either it was altered after it was printed, or another version of the program or of its letters printed it, or "
      "another program saved it again";
  if (finding.erased_since) text += ", or it names somebody whose name was erased since";
  return text + ". Its bytes cannot tell which: rely on the shop's own record, and print it anew.";
}

void add_later(std::vector<std::string>& sentences, const CheckedJob& job) {
  const std::string name = "job " + std::to_string(job.number);
  if (job.later_entry) {
    sentences.push_back("The seal of " + name + " does not stand: it was taken back or made anew later, in " +
                        entry_name(*job.later_entry) + ".");
  }
  if (job.amended_entry) {
    const std::string count = std::to_string(job.amendments_since);
    sentences.push_back("Since it was printed " + name + " got " + count +
                        (job.amendments_since == 1 ? " amendment" : " amendments") + ", the newest in " +
                        entry_name(*job.amended_entry) + ".");
  }
}

}  // namespace

std::string entry_name(std::int64_t seq) { return "entry " + std::to_string(seq); }

std::vector<std::string> words_of_unsealed(const Carried& carried) {
  const auto sealed = [](const CarriedJob& job) { return job.sealed; };
  const auto open = [](const CarriedJob& job) { return !job.sealed; };
  std::vector<std::string> sentences;
  if (std::any_of(carried.jobs.begin(), carried.jobs.end(), open)) {
    sentences.push_back("This record was printed while " + jobs_name(carried.jobs, open) +
                        " was open, and says itself that it is not sealed.");
  }
  if (std::any_of(carried.jobs.begin(), carried.jobs.end(), sealed)) {
    sentences.push_back("This record shows " + jobs_name(carried.jobs, sealed) +
                        " as sealed, in no entry of the journal of the shop that printed it.");
  }
  sentences.push_back("There is nothing that it could be held against; print the record of the sealed job.");
  return sentences;
}

std::vector<std::string> words_of_missing(const Carried& carried, const std::string& why) {
  std::vector<std::string> sentences = {"This shop's journal does not have what this record of " + jobs_name(carried) +
                                        " says of its seal."};
  if (!why.empty()) sentences.push_back("Of its journal: " + why + ".");
  sentences.push_back(
      "Either another shop printed it, or the seal was made up or altered, or this shop's file was replaced or put "
      "back to an older state since. Ask the shop whose name it bears.");
  return sentences;
}

std::vector<std::string> words_of_unproven(const Carried& carried, const std::string& why) {
  std::vector<std::string> sentences = {"This shop's journal has the seal of this record of " + jobs_name(carried) +
                                        ", and cannot vouch for it: the journal itself is not as it was written."};
  if (!why.empty()) sentences.push_back("First fault: " + why + ".");
  sentences.push_back("Have the shop's file checked, with `brakewright check`, before anybody relies on its records.");
  return sentences;
}

std::vector<std::string> words_of_found(const Carried& carried, const std::vector<CheckedJob>& jobs,
                                        const Finding& finding) {
  const std::string name = jobs_name(carried);
  std::vector<std::string> sentences;
  if (finding.same) {
    sentences.push_back("This is byte for byte what this shop prints of " + name + ", as it was on " +
                        moment(carried.printed_at) + ".");
  } else {
    sentences.push_back("This has the seal of " + jobs_name(jobs, [](const CheckedJob&) { return true; }) +
                        ", and is not what this shop prints of it.");
    sentences.push_back(words_of_difference(finding));
  }
  for (const CheckedJob& job : jobs) {
    sentences.push_back(words_of_seal(job));
    add_later(sentences, job);
  }
  sentences.push_back(words_of_proof(carried));
  if (finding.odd_time) {
    sentences.push_back("It says that it was printed on " + moment(carried.printed_at) +
                        ", and the journal's entries of then are of another time: a clock was set, or that time is "
                        "not true.");
  }
  if (!finding.other_address.empty()) {
    sentences.push_back("Its code leads to " + finding.other_address +
                        "; nothing here says whether that was the shop's address.");
  }
  return sentences;
}

}  // namespace brakewright::server
