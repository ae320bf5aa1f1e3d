#include "shop/doors/sessions.hpp"

#include <algorithm>
#include <array>

#include "shop/doors/secret.hpp"
#include "shop/doors/token.hpp"
#include "shop/journal/chain.hpp"

namespace brakewright::shop {
namespace {

constexpr std::chrono::minutes kClockSlack{1};

}  // namespace

std::chrono::minutes SessionRules::idle_of(Role role) const { return leads(role) ? idle_leading : idle; }

bool is_over(const Session& session, Role role, UtcTime now, const SessionRules& rules) {
  if (session.seen_at > now + kClockSlack || session.made_at > now + kClockSlack) return true;
  return now - session.seen_at >= rules.idle_of(role) || now - session.made_at >= rules.longest;
}

Sessions::Sessions(SessionBook& book, SessionRules rules, std::function<UtcTime()> now, RandomBytes random,
                   std::function<std::optional<Role>(const Uuid&)> role_of)
    : book_(book), rules_(rules), now_(std::move(now)), random_(std::move(random)), role_of_(std::move(role_of)) {
  for (const Session& one : book_.sessions()) {
    if (over(one)) {
      book_.remove(one.token_sha256);
    } else {
      sessions_[one.token_sha256] = {one, one.seen_at};
    }
  }
}

bool Sessions::over(const Session& session) const {
  const auto role = role_of_(session.person_id);
  return !role || is_over(session, *role, now_(), rules_);
}

std::string Sessions::open(const Uuid& person_id) {
  const std::string token = new_token(random_);
  const UtcTime now = now_();
  const Session made{.token_sha256 = sha256_of(token), .person_id = person_id, .made_at = now, .seen_at = now};
  book_.put(made);
  sessions_[made.token_sha256] = {made, now};
  keep_few(person_id);
  return token;
}

void Sessions::keep_few(const Uuid& person_id) {
  std::vector<const Session*> own;
  for (const auto& [key, one] : sessions_) {
    if (one.session.person_id == person_id) own.push_back(&one.session);
  }
  if (own.size() <= rules_.most_of_a_person) return;
  std::sort(own.begin(), own.end(), [](const Session* a, const Session* b) {
    return std::tie(a->seen_at, a->made_at) < std::tie(b->seen_at, b->made_at);
  });
  own.resize(own.size() - rules_.most_of_a_person);
  std::vector<std::string> oldest;
  for (const Session* one : own) oldest.push_back(one->token_sha256);
  for (const std::string& one : oldest) end(one);
}

std::optional<Session> Sessions::find(const std::string& token) {
  if (!looks_like_token(token)) return std::nullopt;
  const auto found = sessions_.find(sha256_of(token));
  if (found == sessions_.end()) return std::nullopt;
  if (!over(found->second.session)) return found->second.session;
  end(std::string(found->first));
  return std::nullopt;
}

void Sessions::seen(const Session& session, std::chrono::seconds idle) {
  const auto found = sessions_.find(session.token_sha256);
  if (found == sessions_.end()) return;
  Open& one = found->second;
  one.session.seen_at = std::max(one.session.seen_at, now_() - idle);
  if (one.session.seen_at - one.written_at < rules_.written_every) return;
  one.written_at = one.session.seen_at;
  book_.put(one.session);
}

void Sessions::end(const std::string& token_sha256) {
  book_.remove(token_sha256);
  sessions_.erase(token_sha256);
}

void Sessions::end_all_of(const Uuid& person_id, const std::string& except_token_sha256) {
  std::vector<std::string> theirs;
  for (const auto& [key, one] : sessions_) {
    if (one.session.person_id == person_id && key != except_token_sha256) theirs.push_back(key);
  }
  for (const std::string& key : theirs) end(key);
}

}  // namespace brakewright::shop
