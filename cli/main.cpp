#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <iostream>
#include <system_error>

#include "cli/commands.hpp"
#include "core/input_error.hpp"
#include "shop/store.hpp"

namespace brakewright::cli {
namespace {

constexpr const char* kAbout =
    "Brakewright: decide, cut and record brake rotors on a bench lathe.\n"
    "It computes and remembers; it drives no machine and calls no part safe. The vehicle's and the machine's own\n"
    "instructions, local rules and licensed practice come first.";

constexpr const char* kExits =
    "\nExit codes: 0 done; 1 a fault of the program or the machine; 2 bad input, the message says what is accepted;\n"
    "3 the shop's file failed (full disk, damaged, newer, in use); 4 check or import found something wrong;\n"
    "5 the port is taken.\n\nWith every command: brakewright COMMAND --help";

/// Which command was given, with all that can be said to any of them.
struct CommandLine {
  CLI::App app{kAbout, "brakewright"};
  std::function<int()> command;

  CalcOptions calc;
  ServeOptions serve;
  JobListOptions job_list;
  JobShowOptions job_show;
  ReportOptions report;
  ExportOptions exported;
  ImportOptions imported;
  BackupOptions backup;
  RestoreOptions restore;
  CheckOptions check;
  PasswordOptions password;
  DemoOptions demo;
};

void add_shop(CLI::App* app, std::filesystem::path& shop) {
  shop = "shop-data/shop.sqlite";
  app->add_option("--shop", shop, "File in which the shop is kept")
      ->type_name("FILE")
      ->envname("BRAKEWRIGHT_SHOP")
      ->capture_default_str();
}

CLI::App* add(CLI::App& parent, const std::string& name, const std::string& about, const std::string& example) {
  CLI::App* app = parent.add_subcommand(name, about);
  app->footer("\nExample:\n  " + example);
  return app;
}

void add_calc(CommandLine& line) {
  CLI::App* app = add(line.app, "calc", "Compute without a shop: one JSON object in, one out",
                      "echo '{\"text\":\"836 thou\",\"default_unit\":\"mm\"}' | brakewright calc length\n"
                      "  brakewright calc --list\n"
                      "  brakewright calc verdict --schema\n\n"
                      "Reads standard input. Bad input: exit 2 and {\"error\":{\"code\",\"field\",\"message\"}} on "
                      "standard error.");
  app->add_option("name", line.calc.name, "Name of the computation");
  app->add_flag("--list", line.calc.list, "Name all computations");
  app->add_flag("--schema", line.calc.schema, "Print the JSON Schema of its input and output");
  app->callback([&] {
    if (line.calc.name.empty() && !line.calc.list)
      throw CLI::RequiredError("name (brakewright calc --list names them)");
    line.command = [&] { return calc(line.calc); };
  });
}

void add_serve(CommandLine& line) {
  CLI::App* app = add(line.app, "serve", "Serve the shop to browsers until Ctrl-C",
                      "brakewright serve --shop shop-data/shop.sqlite --lan");
  add_shop(app, line.serve.shop);
  app->add_option("--port", line.serve.port, "Port to listen on; 0 takes a free one")
      ->type_name("N")
      ->check(CLI::Range(0, 65535))
      ->capture_default_str();
  app->add_flag("--lan", line.serve.lan,
                "Serve the shop's network too, and print the address and a QR code; without this nothing outside this "
                "machine can reach the shop. Until a teacher has a password, everybody on that network can read and "
                "write");
  app->add_flag("--https", line.serve.https,
                "Keep what is sent secret on the network, with a certificate of the shop's own that is made at first "
                "use; prints its fingerprint, by which a browser's warning is answered");
  app->callback([&] { line.command = [&] { return serve(line.serve); }; });
}

void add_job(CommandLine& line) {
  CLI::App* job = line.app.add_subcommand("job", "Look at jobs");
  job->require_subcommand(1);
  CLI::App* list =
      add(*job, "list", "List jobs, newest first", "brakewright job list --state open --words \"pulsation saloon\"");
  add_shop(list, line.job_list.shop);
  list->add_option("--state", line.job_list.state, "Only jobs in this state: open or sealed")
      ->check(CLI::IsMember({"open", "sealed"}));
  list->add_option("--words", line.job_list.words, "Only jobs in which all these words occur");
  list->add_option("--limit", line.job_list.limit, "At most so many")
      ->check(CLI::Range(1, 100000))
      ->capture_default_str();
  list->add_flag("--json", line.job_list.json, "Print JSON");
  list->callback([&] { line.command = [&] { return job_list(line.job_list); }; });

  CLI::App* show = add(*job, "show", "Show one job", "brakewright job show 17");
  add_shop(show, line.job_show.shop);
  show->add_option("job", line.job_show.job, "Number or id of the job")->required();
  show->add_flag("--json", line.job_show.json, "Print everything as JSON");
  show->callback([&] { line.command = [&] { return job_show(line.job_show); }; });
}

void add_report(CommandLine& line) {
  CLI::App* app = add(line.app, "report", "Write the record of a job to a file",
                      "brakewright report 17 --to job-17.pdf --paper letter");
  add_shop(app, line.report.shop);
  app->add_option("job", line.report.job, "Number or id of the job")->required();
  app->add_option("--to", line.report.to, "File to write; .pdf holds all sheets, .svg and .png one")
      ->required()
      ->type_name("FILE");
  app->add_option("--paper", line.report.paper, "a4 or letter; the shop's own when left out")
      ->check(CLI::IsMember({"a4", "letter"}));
  app->add_option("--sheet", line.report.sheet, "Which sheet, for .svg and .png")
      ->check(CLI::Range(1, 4))
      ->capture_default_str();
  app->add_option("--dpi", line.report.dpi, "Pixels per inch, for .png")
      ->check(CLI::Range(36, 600))
      ->capture_default_str();
  app->add_option("--address", line.report.address,
                  "Address of the shop on its network, for the QR code, such as http://192.0.2.7:8520");
  app->callback([&] { line.command = [&] { return report(line.report); }; });
}

void add_export(CommandLine& line) {
  CLI::App* app =
      add(line.app, "export", "Write a job or the whole shop, to keep or to carry elsewhere",
          "brakewright export --to shop.json\n  brakewright export --job 17 --format csv --to readings.csv");
  add_shop(app, line.exported.shop);
  app->add_option("--job", line.exported.job, "Number or id of one job; the whole shop when left out");
  line.exported.format = "json";
  app->add_option("--format", line.exported.format, "json, or csv for the readings of one job")
      ->check(CLI::IsMember({"json", "csv"}))
      ->capture_default_str();
  app->add_option("--to", line.exported.to, "File to write; standard output when left out")->type_name("FILE");
  app->callback([&] { line.command = [&] { return export_to(line.exported); }; });
}

void add_import(CommandLine& line) {
  CLI::App* app =
      add(line.app, "import", "Bring in an exported job or shop (JSON), or readings from a table (CSV)",
          "brakewright import job-17.json\n"
          "  brakewright import readings.csv --job 17 --by \"Ada Stone\" --unit in --dry-run\n\n"
          "A table needs headings: side, stage, quantity, circle_number, point_number, value, unit; commas,\n"
          "semicolons or tabs between; decimal points or commas. Refused lines are named one by one; the\n"
          "others are stored. Importing the same file twice adds nothing. The shop must not be served "
          "meanwhile.");
  add_shop(app, line.imported.shop);
  app->add_option("file", line.imported.from, "File to read, or - for standard input")->required();
  app->add_option("--job", line.imported.job, "Number or id of the job that a table belongs to");
  app->add_option("--by", line.imported.by, "Name or id of the person who brings a table in");
  app->add_option("--unit", line.imported.unit,
                  "Unit of numbers that name none: mm or in; the shop's own when left out")
      ->check(CLI::IsMember({"mm", "in"}));
  app->add_flag("--dry-run", line.imported.dry_run, "Only say what would be done with a table");
  app->callback([&] { line.command = [&] { return import_from(line.imported); }; });
}

void add_backup_and_restore(CommandLine& line) {
  CLI::App* backup_app = add(line.app, "backup", "Copy the shop while it runs, checked, and keep the newest copies",
                             "brakewright backup --keep 30\n  brakewright backup --list");
  add_shop(backup_app, line.backup.shop);
  backup_app->add_option("--folder", line.backup.folder, "Where backups are kept; beside the shop when left out")
      ->type_name("FOLDER");
  backup_app->add_option("--keep", line.backup.keep, "How many to keep")
      ->check(CLI::Range(1, 10000))
      ->capture_default_str();
  backup_app->add_flag("--list", line.backup.list, "List the backups there are");
  backup_app->callback([&] { line.command = [&] { return backup(line.backup); }; });

  CLI::App* restore_app =
      add(line.app, "restore", "Put a backup in the place of the shop; what was there is kept beside it",
          "brakewright restore\n  brakewright restore --from shop-backups/shop-20260304T091500Z.sqlite");
  add_shop(restore_app, line.restore.shop);
  restore_app->add_option("--from", line.restore.from, "Backup to restore; the newest good one when left out")
      ->type_name("FILE");
  restore_app->add_option("--folder", line.restore.folder, "Where backups are kept; beside the shop when left out")
      ->type_name("FOLDER");
  restore_app->callback([&] { line.command = [&] { return restore(line.restore); }; });
}

void add_password(CommandLine& line) {
  CLI::App* app = add(line.app, "password", "Set a forgotten password or PIN, at the machine itself",
                      "brakewright password \"Ada Stone\"\n  brakewright password --pin \"Bo Linden\"\n\n"
                      "Asks for it, or reads the first line of standard input. The shop must not be served meanwhile.");
  add_shop(app, line.password.shop);
  app->add_option("person", line.password.person, "Name or id of the person")->required();
  app->add_flag("--pin", line.password.pin, "Set the PIN: of a student to come in with, of a teacher to sign with");
  app->callback([&] { line.command = [&] { return password(line.password); }; });
}

void add_check_and_demo(CommandLine& line) {
  CLI::App* check_app =
      add(line.app, "check", "Check the file, the journal and every seal, and name the first thing wrong",
          "brakewright check --shop shop-data/shop.sqlite\n  brakewright check --pdf job-17.pdf");
  add_shop(check_app, line.check.shop);
  check_app
      ->add_option("--pdf", line.check.pdf,
                   "Hold this record of a sealed job against the shop instead: whether it is what the shop prints")
      ->type_name("FILE");
  check_app->callback([&] { line.command = [&] { return check(line.check); }; });

  CLI::App* demo_app =
      add(line.app, "demo", "Fill a new shop with an invented school's jobs; refuses a shop that has anything in it",
          "brakewright demo --shop /tmp/demo.sqlite");
  add_shop(demo_app, line.demo.shop);
  demo_app->add_option("--seed", line.demo.seed, "The same seed makes the same shop")->capture_default_str();
  demo_app->callback([&] { line.command = [&] { return demo(line.demo); }; });
}

int tell(int code, const std::string& message) {
  std::cerr << "brakewright: " << message << '\n';
  return code;
}

int run(const std::function<int()>& command) {
  try {
    return command();
  } catch (const InputError& error) {
    return tell(bad_input, (error.field().empty() ? "" : error.field() + ": ") + error.what());
  } catch (const shop::StoreError& error) {
    return tell(store_failed, error.what());
  } catch (const std::system_error& error) {
    return tell(own_fault, error.what());
  } catch (const std::exception& error) {
    return tell(own_fault, std::string("a fault of the program: ") + error.what());
  }
}

}  // namespace
}  // namespace brakewright::cli

int main(int argc, char** argv) {
  using namespace brakewright::cli;
  CommandLine line;
  line.app.require_subcommand(1);
  line.app.footer(kExits);
  line.app.set_version_flag("--version", BRAKEWRIGHT_VERSION);
  add_calc(line);
  add_serve(line);
  add_job(line);
  add_report(line);
  add_export(line);
  add_import(line);
  add_backup_and_restore(line);
  add_password(line);
  add_check_and_demo(line);
  try {
    line.app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return line.app.exit(error) == 0 ? done : bad_input;
  }
  return run(line.command);
}
