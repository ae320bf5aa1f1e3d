#include "server/doors/doorkeeper.hpp"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "core/input_error.hpp"
#include "server/doors/cookie.hpp"
#include "shop/find.hpp"

namespace brakewright::server {
namespace {

constexpr std::size_t kMostCameIn = 4096;

std::string token_of(const http::Request& request) {
  return std::string(cookie_in(request.header("cookie"), kSessionCookie));
}

/// How long nobody has touched the tablet, as its page tells; what tells nothing is taken for a person.
std::chrono::seconds idle_of(const http::Request& request) {
  constexpr std::int64_t kMost = 86'400;
  const std::string_view text = request.header("idle-seconds");
  std::int64_t seconds = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
  if (error != std::errc() || end != text.data() + text.size()) return std::chrono::seconds(0);
  return std::chrono::seconds(std::clamp<std::int64_t>(seconds, 0, kMost));
}

std::string in_seconds(std::int64_t seconds) {
  return std::to_string(seconds) + (seconds == 1 ? " second" : " seconds");
}

}  // namespace

http::Response WrongSecret::response() const {
  http::Response response;
  response.status = status_;
  response.body = nlohmann::ordered_json{{"error",
                                          {{"code", status_ == 429 ? "wait" : "wrong_secret"},
                                           {"field", "secret"},
                                           {"message", what()},
                                           {"retry_after_s", retry_after_s_}}}}
                      .dump();
  if (retry_after_s_ > 0) response.headers.emplace_back("Retry-After", std::to_string(retry_after_s_));
  return response;
}

Doorkeeper::Doorkeeper(shop::Shop& shop, DoorOptions options)
    : shop_(shop),
      options_(std::move(options)),
      doors_(shop_, *options_.secrets, options_.costs, options_.now, options_.random),
      sessions_(*options_.book, options_.sessions, options_.now, options_.random, [this](const shop::Uuid& id) {
        const auto person = active(id);
        return person ? std::optional(person->role) : std::nullopt;
      }) {}

std::optional<shop::Person> Doorkeeper::active(const shop::Uuid& person_id) {
  const auto people = shop_.people();
  const shop::Person* found = shop::find(people, person_id);
  if (found == nullptr || !found->active) return std::nullopt;
  return *found;
}

std::optional<SignedIn> Doorkeeper::who(const http::Request& request) {
  if (!doors_.closed()) return std::nullopt;
  const std::string token = token_of(request);
  if (token.empty()) return std::nullopt;
  std::optional<shop::Session> session;
  {
    const std::lock_guard lock(guard_);
    session = sessions_.find(token);
  }
  if (!session) return std::nullopt;
  auto person = active(session->person_id);
  if (!person) return std::nullopt;
  return SignedIn{std::move(*session), std::move(*person)};
}

SignedIn Doorkeeper::needed(const http::Request& request) {
  auto found = who(request);
  if (!found) throw http::Refusal(401, "not_signed_in", "", "nobody is signed in here; come in by your name first");
  return std::move(*found);
}

http::Response Doorkeeper::answer(const Described& operation, const Call& call,
                                  const std::function<http::Response()>& work) {
  if (!doors_.closed()) return work();
  const http::Request& request = call.request();
  const bool carries_cookie = !token_of(request).empty();
  if (operation.writes && carries_cookie && request.header("origin").empty()) {
    throw http::Refusal(403, "wrong_origin", "",
                        "only pages of this shop may write to it; name it in an Origin header");
  }
  if (operation.right == Right::anyone) return work();
  const SignedIn at = needed(request);
  if (operation.id != "events") {
    const std::lock_guard lock(guard_);
    sessions_.seen(at.session, idle_of(request));
  }
  std::optional<shop::Signature> signature;
  const auto give_back = [&] {
    if (!signature) return;
    const std::lock_guard lock(guard_);
    signatures_.give_back(std::move(*signature));
  };
  try {
    hold_to_rights(operation, call, acting(operation, call, at, signature), shop_, options_.school);
    return work();
  } catch (...) {
    give_back();
    throw;
  }
}

shop::Person Doorkeeper::acting(const Described& operation, const Call& call, const SignedIn& at,
                                std::optional<shop::Signature>& signature) {
  if (!operation.signs) return at.person;
  const shop::Uuid by = call.by();
  const std::string token(call.request().header("signature"));
  if (token.empty()) {
    if (by == at.person.id) return at.person;
    throw http::Refusal(403, "not_you", "by_person_id",
                        at.person.name + " is signed in here and can act for nobody else");
  }
  {
    const std::lock_guard lock(guard_);
    signature = signatures_.take(token, at.session.token_sha256, operation.id, by, options_.now());
  }
  const auto signer = signature ? active(by) : std::nullopt;
  if (signer && shop::leads(signer->role)) return *signer;
  throw http::Refusal(403, "bad_signature", "by_person_id",
                      "this signature is used up, too old, or for something else; sign again");
}

std::string Doorkeeper::patience_key(const http::Request& request, const shop::Uuid& person_id, shop::SecretKind kind) {
  const std::string key = to_text(person_id) + " " + std::string(shop::word_of_secret(kind));
  // Where somebody has come in before they are counted by themselves, so that nobody else can keep them waiting there.
  return came_in_.contains({request.remote_address, person_id}) ? key + " " + request.remote_address : key;
}

void Doorkeeper::check(const http::Request& request, const shop::Uuid& person_id, shop::SecretKind kind,
                       const std::string& secret) {
  const bool somebody = active(person_id).has_value();
  std::string key;
  {
    const std::lock_guard lock(guard_);
    // All who are nobody share one count, so that made-up ids fill nothing.
    key = somebody ? patience_key(request, person_id, kind) : "nobody " + request.remote_address;
    const shop::UtcTime now = options_.now();
    const auto wait = std::max(of_person_.wait_s(key, now), of_address_.wait_s(request.remote_address, now));
    if (wait > 0) {
      throw WrongSecret(429, "too many wrong tries; the next one can be made in " + in_seconds(wait), wait);
    }
    of_person_.tried(key, now);
    of_address_.tried(request.remote_address, now);
  }
  const bool right = doors_.holds(person_id, kind, secret) && somebody;
  const std::lock_guard lock(guard_);
  if (right) {
    of_person_.right(key);
    of_address_.undone(request.remote_address);
    if (came_in_.size() >= kMostCameIn) came_in_.clear();
    came_in_.emplace(request.remote_address, person_id);
    return;
  }
  const auto wait = of_person_.wait_s(key, options_.now());
  throw WrongSecret(401,
                    kind == shop::SecretKind::pin ? "this is not the PIN that belongs to the name"
                                                  : "this is not the password that belongs to the name",
                    wait);
}

std::string Doorkeeper::sign_in(const http::Request& request, const shop::Uuid& person_id) {
  const std::lock_guard lock(guard_);
  if (const auto before = sessions_.find(token_of(request))) sessions_.end(before->token_sha256);
  return session_cookie(sessions_.open(person_id), sessions_.rules().longest, request.secure);
}

std::string Doorkeeper::sign_out(const http::Request& request) {
  const std::lock_guard lock(guard_);
  if (const auto present = sessions_.find(token_of(request))) sessions_.end(present->token_sha256);
  return no_session_cookie(request.secure);
}

void Doorkeeper::end_others_of(const shop::Uuid& person_id, const http::Request& kept) {
  const std::lock_guard lock(guard_);
  const auto present = sessions_.find(token_of(kept));
  sessions_.end_all_of(person_id, present ? present->token_sha256 : "");
}

std::string Doorkeeper::give_signature(const SignedIn& at, const std::string& operation, const shop::Uuid& signer) {
  const std::lock_guard lock(guard_);
  return signatures_.give(at.session.token_sha256, operation, signer, options_.now(), options_.random);
}

std::size_t Doorkeeper::sessions_open() {
  const std::lock_guard lock(guard_);
  return sessions_.count();
}

}  // namespace brakewright::server
