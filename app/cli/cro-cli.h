/* cro-cli.h: the commands of croustade-cli.
 *
 * Results go to standard output, messages to standard error. A command returns the exit
 * status of the contract. */
#pragma once

#include <glib.h>

#include "cro-book.h"
#include "cro-breakdown.h"
#include "cro-fault.h"
#include "cro-here.h"
#include "cro-kind.h"
#include "cro-ref.h"
#include "cro-salvage.h"
#include "cro-service-plan.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_CLI_DONE = 0,
  CRO_CLI_INCOMPLETE = 1,   /* done, and something is incomplete or over its limit */
  CRO_CLI_REFUSED = 2,      /* wrong usage or input, nothing changed */
  CRO_CLI_FAILED = 3,       /* the system failed, nothing changed */
} CroCliStatus;

CroCliStatus cro_cli_new     (int argc, char **argv);
CroCliStatus cro_cli_load    (int argc, char **argv);
CroCliStatus cro_cli_dump    (int argc, char **argv);
CroCliStatus cro_cli_add     (int argc, char **argv);
CroCliStatus cro_cli_cost    (int argc, char **argv);
CroCliStatus cro_cli_plan    (int argc, char **argv);
CroCliStatus cro_cli_allergens (int argc, char **argv);
CroCliStatus cro_cli_prices  (int argc, char **argv);
CroCliStatus cro_cli_history (int argc, char **argv);
CroCliStatus cro_cli_undo    (int argc, char **argv);
CroCliStatus cro_cli_check   (int argc, char **argv);
CroCliStatus cro_cli_workbook (int argc, char **argv);
CroCliStatus cro_cli_card    (int argc, char **argv);
CroCliStatus cro_cli_month   (int argc, char **argv);
CroCliStatus cro_cli_close   (int argc, char **argv);
CroCliStatus cro_cli_reopen  (int argc, char **argv);

/* From now on what g_print and g_printerr write has no control characters, nothing that turns text and no
 * bytes that are not UTF-8: they are shown as \x1B, \u202E. A message is one line. */
void         cro_cli_escape_output (void);

/* Parses a command's options. On FALSE the command ends with *status: a fault was told, or
 * help was printed. arguments, as in "BOOK [ACT]", say what is left in argv after the options; what
 * follows "--" is one, whatever it looks like. */
gboolean     cro_cli_parse   (const char        *command,
                              const char        *arguments,
                              const char        *summary,
                              GOptionEntry      *entries,
                              int               *argc,
                              char            ***argv,
                              CroCliStatus      *status);

/* Sets of kinds, as cro_finder_find takes them. */
#define CRO_CLI_PLATES (1u << CRO_KIND_PLATE)
#define CRO_CLI_MENUS (1u << CRO_KIND_MENU)
#define CRO_CLI_PREPARATIONS (1u << CRO_KIND_PREPARATION)
#define CRO_CLI_THINGS (CRO_CLI_PLATES | CRO_CLI_MENUS)
#define CRO_CLI_ITEMS (1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT)

/* What bears a name, which is tidied first; FALSE says that there is none, and names like it. kind
 * may be NULL. */
gboolean     cro_cli_find    (CroBook           *book,
                              guint              kinds,
                              const char        *written,
                              CroKind           *kind,
                              guint32           *slot);

/* On standard error, of names (const char *, or NULL), those that are near one that was not found. */
void         cro_cli_say_similar (const GPtrArray *names,
                              const char        *name);

/* A day as YYYY-MM-DD; NULL leaves *date as it is. FALSE says that it is none. */
gboolean     cro_cli_read_date (const char      *text,
                              CroDate           *date);

/* A number of an option, as "--bites", as tables write it, in millionths, of which the least are allowed. FALSE says
 * what it must be: otherwise, a line, where it is no such number. */
gboolean     cro_cli_read_number (const char    *option,
                              const char        *text,
                              gint64             least,
                              const char        *otherwise,
                              gint64            *micro);

/* Asks of a whole number that is a sound GTIN, as a month does: it is taken for what it was given for. said: as
 * typed. */
void         cro_cli_ask_bar_code (const char   *said,
                              const char        *number);

/* Whether what is made of a book may be written at path, as far as one can see beforehand; path may be
 * NULL. FALSE says why not. */
gboolean     cro_cli_can_write (const char      *path,
                              const char        *book);

/* Whether what is written at path leaves a table of accounts as it is; either may be NULL. FALSE says why not. */
gboolean     cro_cli_keeps_accounts (const char *path,
                              const char        *accounts);

/* Whether path is a book's, by its name or by what stands there; says that it is. */
gboolean     cro_cli_is_book (const char        *path);

/* Writes a file at path, or, where that is "-", what such a file would hold to standard output: all
 * of it once it is whole. */
typedef gboolean (*CroCliWrite) (const char *path, gpointer user_data, GError **error);

gboolean     cro_cli_write_file (const char     *path,
                              CroCliWrite        write,
                              gpointer           user_data,
                              GError           **error);

/* A command has changed the book for good: what fails from now on does not undo that. */
void         cro_cli_note_change (void);

/* Brings results out; the status that the program ends with. */
CroCliStatus cro_cli_end      (CroCliStatus       status);

/* Whether an error is of that domain; not where it is NULL. */
gboolean     cro_cli_is_of   (const GError      *error,
                              GQuark             domain);

/* Whether a file can be written in it; NULL: the source's. FALSE says that it cannot. */
gboolean     cro_cli_knows_language (const char *language);

/* From now on a reader of the result that goes away ends the program only when its book is closed, so that
 * nothing of that stays behind … */
void         cro_cli_note_reader (void);

/* Whether it went: to whom it would be told is gone too. */
gboolean     cro_cli_has_reader_left (void);

/* … here, as it would have ended at once: quietly, by SIGPIPE. Returns where nobody went away. */
void         cro_cli_follow_reader (void);

/* From now on SIGINT and SIGTERM end a command where nothing is left half done. */
void         cro_cli_note_interrupts (void);

/* FALSE once one of them came; as what asks whether to go on. */
gboolean     cro_cli_goes_on (gpointer           user_data,
                              double             done);

/* Shows on a terminal how much is done, and asks the same. user_data: an int, the per cent shown
 * last, -1 at first. */
gboolean     cro_cli_show_progress (gpointer    user_data,
                              double             done);

/* Takes away what is shown of it. */
void         cro_cli_end_progress (void);

/* Says what went wrong, and which exit status that is. Where nobody said what did, error is NULL and
 * the status FAILED. */
CroCliStatus cro_cli_fail    (const char        *what,
                              const GError      *error);

/* Warns of a book that lies on a network file system. */
void         cro_cli_warn_of_network (const char    *path);

/* Says why tables, or what was made into some, did not get into a book: faults, or else the error of
 * what is at fault, the folder or the book. */
CroCliStatus cro_cli_fail_to_load (const char   *book,
                                   const char   *folder,
                                   CroFaults    *faults,
                                   const GError *error);

/* One line for each fault, as file:line: column: what is wrong; beyond 1,000 a count. */
void         cro_cli_print_faults (CroFaults     *faults);

/* The same of what was left out of a damaged book. */
void         cro_cli_print_left_out (const CroSalvage *salvage);

/* One line for each question about what was entered, on standard error. */
void         cro_cli_print_doubts (CroBook           *book);

/* Those lines, as a set that owns them. NULL: the book cannot be read. */
GHashTable  *cro_cli_known_doubts (const char        *path);

/* The same of what came into the book at path, and about amounts of its open months that are far beyond the
 * others: but for what was known, and for days of which no row is new. Both may be NULL: then about all, of
 * months the newest. */
void         cro_cli_print_slips (const char         *path,
                              GHashTable         *known,
                              GPtrArray          *changes);

/* A copy of a book, alone in a folder of its own: its path, which is freed with it. NULL with error. */
char        *cro_cli_copy_new     (CroStore          *of,
                                   GError           **error);
void         cro_cli_copy_remove  (char              *copy);

/* Of a plate, a menu or an item: that its cost cannot be stated, on standard error. */
void         cro_cli_print_too_large (const char       *name);

/* Names on standard error what keeps plates and menus from being whole or within their targets. */
gboolean     cro_cli_is_all_well (CroBook           *book);

/* The same of one plate, menu or preparation. */
gboolean     cro_cli_is_well  (CroFigures        *figures,
                              CroRef             thing);

/* What moved, a line for each value, and one for each row that came or went. Elements CroTableChange. */
void         cro_cli_print_changes (GPtrArray        *changes);

/* What `cost` was asked for. */
typedef struct
{
  CroBook   *book;
  CroDate    date;
  GArray    *plates;        /* guint32: recipe slots */
  GArray    *menus;         /* guint32 */
  gboolean   is_whole;      /* no plate was named: all of them, and the menus */
} CroCosting;

/* FALSE with error if it could not be written. */
gboolean     cro_cli_print_cost_json  (CroCosting    *costing,
                                       GError       **error);
void         cro_cli_print_cost_table (CroCosting    *costing);
void         cro_cli_print_cost_cards (CroCosting    *costing);

/* Of a card. ceilings are those of the breakdown's ingredients. */
void         cro_cli_print_movers     (CroFigures    *figures,
                                       CroRef         thing,
                                       CroBreakdown  *breakdown,
                                       GArray        *ceilings);

/* Of a card: what its batches give, and where the prices come from. rows: cro_card_new (). */
void         cro_cli_print_origins    (CroFigures    *figures,
                                       GArray        *rows);

/* What `plan` was asked for. */
typedef struct
{
  CroBook        *book;
  CroDate         date;          /* of prices */
  CroDate         day;           /* of the service, with its name; NULL: covers were given */
  char           *name;
  CroService     *service;
  CroServicePlan *plan;
} CroPlanning;

/* FALSE with error if it could not be written. */
gboolean     cro_cli_print_plan_json  (CroPlanning   *planning,
                                       GError       **error);
void         cro_cli_print_plan_table (CroPlanning   *planning);

G_END_DECLS
