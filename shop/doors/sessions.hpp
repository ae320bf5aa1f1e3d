#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"

/// Who is signed in on which tablet. Not for several threads at once.
namespace brakewright::shop {

struct Session {
  std::string token_sha256 = {};  ///< of the token that the tablet has; the token itself is kept nowhere
  Uuid person_id = {};
  UtcTime made_at = {};
  UtcTime seen_at = {};

  friend bool operator==(const Session&, const Session&) = default;
};

/// Where sessions outlive the program; no part of the shop's record.
class SessionBook {
 public:
  virtual ~SessionBook() = default;
  virtual std::vector<Session> sessions() = 0;
  virtual void put(const Session&) = 0;  ///< inserts or replaces
  virtual void remove(const std::string& token_sha256) = 0;
};

struct SessionRules {
  std::chrono::minutes idle{20};          ///< of a tablet that goes from hand to hand
  std::chrono::minutes idle_leading{30};  ///< of teachers and lead hands
  std::chrono::hours longest{12};
  std::chrono::seconds written_every{60};  ///< when a tablet was last seen is written down no oftener
  std::size_t most_of_a_person = 40;       ///< the one that was seen longest ago goes first

  std::chrono::minutes idle_of(Role role) const;
};

/// Whether a session has come to its end: idle for too long, too old, or made or seen after `now` (the clock was set
/// back by more than a minute).
bool is_over(const Session& session, Role role, UtcTime now, const SessionRules& rules);

class Sessions {
 public:
  /// What the book holds is known at once. The book must outlive this.
  /// @param role_of  of a person who may be signed in; nothing for anybody else
  Sessions(SessionBook& book, SessionRules rules, std::function<UtcTime()> now, RandomBytes random,
           std::function<std::optional<Role>(const Uuid&)> role_of);

  /// Signs a person in. @return the token, 64 hex digits, never given before
  std::string open(const Uuid& person_id);

  /// The session of a token, when it is still on. @param token  anything that a stranger may send
  std::optional<Session> find(const std::string& token);

  /// Somebody was at the tablet `idle` ago.
  void seen(const Session& session, std::chrono::seconds idle);

  void end(const std::string& token_sha256);
  void end_all_of(const Uuid& person_id, const std::string& except_token_sha256 = "");

  std::size_t count() const { return sessions_.size(); }
  const SessionRules& rules() const { return rules_; }

 private:
  bool over(const Session& session) const;
  void keep_few(const Uuid& person_id);

  struct Open {
    Session session;
    UtcTime written_at;
  };

  SessionBook& book_;
  SessionRules rules_;
  std::function<UtcTime()> now_;
  RandomBytes random_;
  std::function<std::optional<Role>(const Uuid&)> role_of_;
  std::map<std::string, Open> sessions_;  ///< by token_sha256
};

/// A book that ends with the program.
class NoBook final : public SessionBook {
 public:
  std::vector<Session> sessions() override { return {}; }
  void put(const Session&) override {}
  void remove(const std::string&) override {}
};

}  // namespace brakewright::shop
