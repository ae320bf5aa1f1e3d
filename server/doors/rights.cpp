#include "server/doors/rights.hpp"

#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "server/routes/operations.hpp"
#include "shop/doors/secret.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"

namespace brakewright::server {
namespace {

using shop::Role;

constexpr std::int64_t kAllKnownParts = 100'000;

[[noreturn]] void needs_teacher(const std::string& what) {
  throw http::Refusal(403, "needs_teacher", "",
                      what + " is for a teacher or a lead hand; one of them can sign for it here");
}

[[noreturn]] void not_yours(const std::string& field, const std::string& message) {
  throw http::Refusal(403, "not_yours", field, message);
}

/// One call by somebody who does not lead.
struct Case {
  const Call& call;
  const shop::Person& who;
  shop::Shop& shop;
  const SchoolRules& school;
  const shop::JobFile* file;  ///< of the job in the path, null without one
};

bool blank(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

template <class E>
E body_as(const Case& of) {
  return shop::from_json<E>(of.call.body());
}

bool has_work_in(const shop::Job& job, const shop::Uuid& person_id) {
  return !job.worker_person_id || *job.worker_person_id == person_id || job.opened_by_person_id == person_id;
}

// ---- what limits rest on -------------------------------------------------------------------------------------------

using LimitMember = std::optional<shop::Limit> shop::Limits::*;
constexpr LimitMember kLimits[] = {&shop::Limits::nominal,   &shop::Limits::machine_to,   &shop::Limits::discard,
                                   &shop::Limits::variation, &shop::Limits::runout,       &shop::Limits::scoring,
                                   &shop::Limits::finish_ra, &shop::Limits::out_of_round, &shop::Limits::taper};

std::optional<shop::Limits> known_limits(shop::Shop& shop, const std::optional<shop::Uuid>& known_part_id) {
  if (!known_part_id) return std::nullopt;
  const auto all = shop.known_parts("", kAllKnownParts);
  const shop::KnownPart* known = shop::find(all, *known_part_id);
  return known == nullptr ? std::nullopt : std::optional(known->limits);
}

bool has_known_source(const std::optional<shop::Limit>& limit) {
  return limit && limit->source != shop::LimitSource::unknown;
}

/// A figure may be entered by anybody; that it stands on the part, in a book or in a rule of the house is for a teacher
/// to say, unless it stood there already or a known part of the shop brings it; so is taking such a figure away again.
void hold_limits(const shop::Limits& wanted, const shop::Limits* present, const std::optional<shop::Limits>& known) {
  for (const LimitMember member : kLimits) {
    const auto& limit = wanted.*member;
    if (present != nullptr && present->*member == limit) continue;
    if (known && (*known).*member == limit) continue;
    const bool replaces_known = present != nullptr && has_known_source(present->*member);
    if (!replaces_known && !has_known_source(limit)) continue;
    needs_teacher("a limit whose source is said to be known");
  }
}

void limits_of_new_parts(const Case& of) {
  for (const shop::Part& part : body_as<shop::NewJob>(of).parts) {
    hold_limits(part.limits, nullptr, known_limits(of.shop, part.known_part_id));
  }
}

void limits_of_part(const Case& of) {
  const auto wanted = body_as<shop::Part>(of);
  const shop::Part* present = shop::find(of.file->parts, wanted.id);
  hold_limits(wanted.limits, present == nullptr ? nullptr : &present->limits,
              known_limits(of.shop, wanted.known_part_id));
}

void limits_of_known_part(const Case& of) {
  const auto wanted = body_as<shop::KnownPart>(of);
  const auto stored = known_limits(of.shop, wanted.id);
  if (!stored || *stored != wanted.limits) needs_teacher("keeping the limits of a part for the next time");
}

// ---- what else a call contains -------------------------------------------------------------------------------------

void own_reading(const Case& of) {
  const shop::Reading* reading = shop::find(of.file->readings, of.call.id("reading_id"));
  if (reading != nullptr && reading->by_person_id != of.who.id) needs_teacher("taking back what somebody else read");
}

void own_finding(const Case& of) {
  const shop::Finding* finding = shop::find(of.file->findings, of.call.id("finding_id"));
  if (finding != nullptr && finding->by_person_id != of.who.id) needs_teacher("taking back what somebody else saw");
}

void as_computed(const Case& of) {
  const auto wanted = body_as<shop::NewDecision>(of);
  if (blank(wanted.reason)) return;  // the shop asks for one where it needs one
  const shop::Assessment assessed = of.shop.assessment(of.file->job.id);
  std::optional<int> computed;
  if (assessed.verdict) computed = static_cast<int>(assessed.verdict->action);
  if (assessed.drums) computed = static_cast<int>(assessed.drums->action);
  if (!computed || *computed != static_cast<int>(wanted.action)) needs_teacher("deciding otherwise than was computed");
}

template <class New>
void no_reason(const Case& of) {
  if (!blank(body_as<New>(of).reason)) needs_teacher("going on with a reason where a rule of the shop says otherwise");
}

/// What is said of a job that the path does not name.
template <class New>
void own_job_in_body(const Case& of) {
  const std::optional<shop::Uuid> job_id = body_as<New>(of).job_id;
  if (!job_id || has_work_in(of.shop.job_file(*job_id).job, of.who.id)) return;
  not_yours("job_id", "somebody else works on this job; they, a lead hand or a teacher can do this");
}

/// Taking a job that nobody has, or giving one's own back; not to set others to work.
void hands_over_nothing(const Case& of) {
  const auto wanted = body_as<shop::Job>(of).worker_person_id;
  if (wanted && wanted != of.file->job.worker_person_id && *wanted != of.who.id) {
    needs_teacher("giving a job to somebody else");
  }
}

void with_permit(const Case& of) {
  if (!of.school.may_cut || of.school.may_cut(of.who.id, of.file->job.id)) return;
  throw http::Refusal(
      403, "needs_permit", "",
      "working at the lathe alone needs a permit that stands; a teacher or a lead hand who stands by can "
      "sign for this job here");
}

/// What a student's call of an operation is held to beyond whose job it is; operations that are not here carry nothing
/// that is a teacher's.
const std::map<std::string, std::function<void(const Case&)>, std::less<>>& contents() {
  static const std::map<std::string, std::function<void(const Case&)>, std::less<>> table{
      {"open_job", limits_of_new_parts},
      {"change_part", limits_of_part},
      {"put_known_part", limits_of_known_part},
      {"change_job", hands_over_nothing},
      {"withdraw_reading", own_reading},
      {"withdraw_finding", own_finding},
      {"decide", as_computed},
      {"record_mount", no_reason<shop::NewMount>},
      {"record_proof", no_reason<shop::NewMountProof>},
      {"record_refit", no_reason<shop::NewRefit>},
      {"join_queue", own_job_in_body<shop::NewQueueEntry>},
      {"add_evidence", own_job_in_body<shop::Evidence>},
      {"record_step", with_permit},
      {"record_pass", with_permit},
      {"record_cut", with_permit},
  };
  return table;
}

// ---- lead hands ----------------------------------------------------------------------------------------------------

/// A lead hand enters students and visitors, and makes nobody one who leads, themselves included.
void hold_lead_hand(const Described& operation, const Call& call, shop::Shop& shop) {
  if (operation.id != "put_person") return;
  const auto people = shop.people();
  const shop::Person* present = shop::find(people, call.id("person_id"));
  const bool was_leading = present != nullptr && shop::leads(present->role);
  if (was_leading || shop::leads(shop::from_json<shop::Person>(call.body()).role)) {
    throw http::Refusal(403, "needs_teacher", "", "only a teacher enters or changes teachers and lead hands");
  }
}

// ---- studies -------------------------------------------------------------------------------------------------------

void hold_study(const Call& call, const SchoolRules& school) {
  if (!school.is_closed || school.is_closed(call.id("study_id"))) return;
  throw http::Refusal(403, "not_closed", "study_id", "what a study says is shown when a teacher has closed it");
}

}  // namespace

Right right_named(const std::string& word) {
  if (word == "anyone") return Right::anyone;
  if (word == "member") return Right::member;
  if (word == "self") return Right::self;
  if (word == "worker") return Right::worker;
  if (word == "teacher") return Right::teacher;
  throw std::logic_error("no such right: " + word);
}

void hold_to_rights(const Described& operation, const Call& call, const shop::Person& who, shop::Shop& shop,
                    const SchoolRules& school) {
  if (operation.id == "study_answer" && !shop::leads(who.role)) hold_study(call, school);
  if (operation.right == Right::anyone || operation.right == Right::member) return;
  if (shop::leads(who.role)) {
    if (who.role == Role::lead_hand) hold_lead_hand(operation, call, shop);
    return;
  }
  if (operation.right == Right::self) {
    if (call.optional_id("person_id") == who.id) return;
    not_yours("person_id", "this is for the person themselves, a lead hand or a teacher");
  }
  if (operation.right == Right::teacher) needs_teacher("this");
  if (who.role == Role::visitor) {
    throw http::Refusal(403, "visitor", "", "visitors look and change nothing; students, lead hands and teachers can");
  }
  std::optional<shop::JobFile> file;
  if (operation.of_a_job) {
    file = job_file_of(call, shop);
    if (!has_work_in(file->job, who.id)) {
      not_yours("job_id", "somebody else works on this job; they, a lead hand or a teacher can do this");
    }
  }
  const auto content = contents().find(operation.id);
  if (content != contents().end()) content->second({call, who, shop, school, file ? &*file : nullptr});
}

}  // namespace brakewright::server
