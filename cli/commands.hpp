#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

/// The commands of `brakewright`, one source each. cli/main.cpp reads the command line and calls them.
///
/// A command answers on standard output and returns an Exit. What it throws is told on standard error by
/// cli/main.cpp: InputError as bad_input, StoreError as store_failed, anything else as own_fault.
namespace brakewright::cli {

enum Exit : int {
  done = 0,
  own_fault = 1,     ///< an error of the program or the machine
  bad_input = 2,     ///< the command line or what was given to it; the message says what is accepted
  store_failed = 3,  ///< the shop's file: full disk, damaged, of a newer program, in use
  found_wrong = 4,   ///< `check` found something, or `import` refused a line
  port_taken = 5     ///< `serve` cannot listen there
};

struct CalcOptions {
  std::string name;
  bool list = false;
  bool schema = false;
};
int calc(const CalcOptions& options);

struct ServeOptions {
  std::filesystem::path shop;
  std::uint16_t port = 8520;
  bool lan = false;
  bool https = false;
};
int serve(const ServeOptions& options);

struct JobListOptions {
  std::filesystem::path shop;
  std::string state;  ///< "open", "sealed" or empty
  std::string words;
  std::int64_t limit = 50;
  bool json = false;
};
int job_list(const JobListOptions& options);

struct JobShowOptions {
  std::filesystem::path shop;
  std::string job;  ///< number or id
  bool json = false;
};
int job_show(const JobShowOptions& options);

struct ReportOptions {
  std::filesystem::path shop;
  std::string job;
  std::filesystem::path to;  ///< the ending says what it becomes: .pdf, .svg, .png
  std::string paper;         ///< "a4", "letter" or empty for the shop's own
  int sheet = 1;
  int dpi = 150;
  std::string address;  ///< of the shop on its network, for the code on the sheet
};
int report(const ReportOptions& options);

struct ExportOptions {
  std::filesystem::path shop;
  std::string job;  ///< empty: the whole shop
  std::string format;
  std::filesystem::path to;  ///< empty or "-": standard output
};
int export_to(const ExportOptions& options);

struct ImportOptions {
  std::filesystem::path shop;
  std::filesystem::path from;
  std::string job;   ///< of readings in a table
  std::string by;    ///< name or id of who imports
  std::string unit;  ///< of bare numbers in a table
  bool dry_run = false;
};
int import_from(const ImportOptions& options);

struct BackupOptions {
  std::filesystem::path shop;
  std::filesystem::path folder;  ///< empty: beside the shop
  std::size_t keep = 20;
  bool list = false;
};
int backup(const BackupOptions& options);

struct RestoreOptions {
  std::filesystem::path shop;
  std::filesystem::path from;  ///< empty: the newest good one
  std::filesystem::path folder;
};
int restore(const RestoreOptions& options);

struct CheckOptions {
  std::filesystem::path shop;
  std::filesystem::path pdf;  ///< a record to hold against the shop; empty: the shop itself is checked
};
int check(const CheckOptions& options);

struct PasswordOptions {
  std::filesystem::path shop;
  std::string person;  ///< name or id
  bool pin = false;    ///< a PIN in place of a password
};
int password(const PasswordOptions& options);

struct DemoOptions {
  std::filesystem::path shop;
  std::uint64_t seed = 20261125;
};
int demo(const DemoOptions& options);

}  // namespace brakewright::cli
