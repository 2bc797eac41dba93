/* cro-window-private.h: what the files of the window share. */
#pragma once

#include "cro-month-list.h"
#include "cro-own-file.h"
#include "cro-page-list.h"
#include "cro-place-list.h"
#include "cro-scroll-back.h"
#include "cro-sided.h"
#include "cro-welcome.h"
#include "cro-window.h"

struct _CroWindow
{
  AdwApplicationWindow parent_instance;

  AdwToastOverlay *toasts;
  AdwWindowTitle  *title;
  GtkWidget       *search_button;
  GtkWidget       *trial_button;
  GtkWidget       *finder;        /* over the whole book */
  GtkWidget       *sought_from;   /* what had the focus before it; weak */
  GtkWidget       *date_button;
  CroDate          day;           /* that was chosen there */
  GtkWidget       *day_entry;
  GtkCalendar     *calendar;      /* NULL: nobody looked for a day yet */
  GtkWidget       *prices_of_day; /* which of the two questions the calendar asks */
  GtkWidget       *book_of_day;
  GtkWidget       *date_banner;   /* that it is another day than today */
  GtkLabel        *date_banner_label;
  gboolean         is_setting_date;
  gboolean         is_day_typed;  /* the popover goes once that day is shown */
  guint            today_id;      /* until prices are today's again */
  GMenu           *recent_menu;
  GtkWidget       *undo_button;
  GtkWidget       *undo_label;
  GtkWidget       *redo_button;
  GtkWidget       *banner;        /* something that holds for the whole book */
  GtkLabel        *banner_label;
  GtkWidget       *notes;         /* of the demo: each, and last a button for those that are folded */
  gboolean         are_notes_open; /* where there is no room for all */
  GtkStack        *stack;
  CroWelcome      *welcome;       /* NULL: it was not shown yet */
  GtkProgressBar  *progress;
  GtkLabel        *doing;
  GtkWidget       *cancel_button;
  AdwStatusPage   *trouble;       /* NULL: there was none yet, nor its buttons */
  GtkWidget       *retry_button;
  GtkWidget       *copy_button;
  GtkWidget       *salvage_button;
  GtkWidget       *tables_button;
  GtkWidget       *other_button;
  GtkWidget       *write_button;  /* on the banner */
  GtkListBox      *rail;
  GtkWidget       *list_button;
  CroSided        *sided;
  GtkWidget       *list_box;
  GtkStack        *lists;       /* list, and those of places with pages of their own */
  CroPlaceList    *list;
  CroMonthList    *months;      /* in its place, of months */
  CroPageList     *page_lists[CRO_N_PLACES]; /* NULL: the place has none */
  GtkStack        *bench;         /* a page for each kind of thing: its child is a CroBench */

  CroBook         *book;
  char            *path;
  gboolean         is_read_only;
  gboolean         is_locked;     /* that is why */
  guint            poll_id;
  guint            move_id;
  guint            present_id;    /* until its first book stands, or takes long */
  GCancellable    *work;          /* what a thread does for this window */
  int              done;          /* of it, per mille; -1: nobody knows. Atomic. */
  const char      *page_before;   /* what the window showed before it; static */
  char            *path_before;
  char            *bring_path;    /* the spreadsheet that waits for its book */
  CroOwnFile       bring_made;    /* the book that was made for it alone; inode 0: none was */
  gint64           bring_change;  /* its newest change then */
  GtkWidget       *focus_before;  /* weak */
  CroPlace         place;
  guint            serial;        /* of the model whose slots the next two are */
  CroRef           now;           /* what stands on the bench */
  GArray          *before;        /* Visit: where Back leads */
  struct
  {
    const char *table;            /* static; NULL: nothing was */
    gint64      id;
  }                left[CRO_N_PLACES]; /* what was open last in each, as rows: slots are of one opened book */
  gboolean         is_moving;     /* rail and list follow, and do not lead */
  gboolean         is_list_shown;
  gint64           undo_change;   /* the newest change when undo and redo were named */
  guint64          undo_edition;  /* and the book's edition then */
  GHashTable      *drafts;        /* keys of the state that hold texts of what is on the bench */
  GtkWidget       *focused;       /* what had the focus last, outside of menus; weak */
  guint            focus_id;      /* until it is seen whether the focus is lost */
  guint            turn_id;       /* until it is seen that the list has room, or none any more */
  CroScrollBack    scroll;        /* of the bench */
};

/* --- cro-window.c ------------------------------------------------------------------------------- */

/* Shows the book that was opened: its benches, its title, the place where it was left. */
void cro_window_set_book       (CroWindow    *self,
                                CroBook      *book);

/* The first page, where the focus is not yet. */
void cro_window_show_welcome   (CroWindow    *self);

/* To the first page, as if no book had been opened here. */
void cro_window_leave_book     (CroWindow    *self);

/* The settings of the house; cause: what is missing there, or CRO_NO_CAUSE. */
void cro_window_open_settings  (CroWindow    *self,
                                int           cause);

void cro_window_say            (CroWindow    *self,
                                const char   *text);
void cro_window_fail           (CroWindow    *self,
                                const GError *error);

/* --- cro-window-places.c ------------------------------------------------------------------------ */

void     cro_window_install_places   (GtkWidgetClass *widget_class);
void     cro_window_add_places       (CroWindow      *self);

/* What stands on the bench, or its trial that is in front now. */
void     cro_window_show_again       (CroWindow      *self);

/* From a thing that is no more to the one, and the field, that led to it; else to the first of the
 * place. */
void     cro_window_leave_gone       (CroWindow      *self);

/* Shows what was open last in a place, else the first thing there. */
void     cro_window_go_to_place      (CroWindow      *self,
                                      CroPlace        place);

/* Where the next line of what stands on the bench is typed. */
void     cro_window_focus_next_line  (CroWindow      *self);

/* To where a letter looks for something in the place that is shown. */
void     cro_window_focus_place      (CroWindow      *self);

/* Where a letter that is typed changes nothing. */
void     cro_window_focus_harmless   (CroWindow      *self);

void     cro_window_open_kind        (CroWindow      *self,
                                      CroKind         kind,
                                      guint32         slot);

gboolean cro_window_is_alive         (CroModel       *model,
                                      CroRef          ref);
gboolean cro_window_can_show         (CroWindow      *self,
                                      CroRef          ref);

/* --- cro-window-list.c -------------------------------------------------------------------------- */

void     cro_window_install_list     (GtkWidgetClass *widget_class);
void     cro_window_add_list         (CroWindow      *self);

/* The one that the place has: its things, or its pages. */
void     cro_window_put_list         (CroWindow      *self);

/* As it is wanted; over the bench it is until something is chosen. */
void     cro_window_show_list        (CroWindow      *self);

/* The list of the place is on the screen: it is wanted, and has room or stands over the bench. */
gboolean cro_window_is_list_seen     (CroWindow      *self);

void     cro_window_focus_list       (CroWindow      *self);

/* Where a table on the bench is searched. FALSE: nothing there takes the focus. */
gboolean cro_window_focus_table      (CroWindow      *self);

/* --- cro-window-focus.c ------------------------------------------------------------------------- */

/* From now on a focus that is lost comes back to what had it last; until the window goes. */
void     cro_window_watch_focus      (CroWindow      *self);
void     cro_window_forget_focus     (CroWindow      *self);

/* --- cro-window-search.c ------------------------------------------------------------------------ */

/* Ctrl+K: by part of its name to any thing of the book. */
void     cro_window_install_search   (GtkWidgetClass *widget_class);
void     cro_window_add_search       (CroWindow      *self);

/* --- cro-window-undo.c -------------------------------------------------------------------------- */

void     cro_window_install_undo     (GtkWidgetClass *widget_class);
void     cro_window_add_undo         (CroWindow      *self);

/* Names what undo and redo would take back and bring again. */
void     cro_window_update_undo      (CroWindow      *self);

/* --- cro-window-trial.c ------------------------------------------------------------------------- */

void     cro_window_install_trial    (GtkWidgetClass *widget_class);

/* Whether a trial is shown in place of a thing. */
gboolean cro_window_has_trial        (CroWindow      *self,
                                      CroRef          ref);

/* The book that is worked in: of a trial that is shown its own. Borrowed. */
CroBook *cro_window_get_worked       (CroWindow      *self);

/* What the button says of what stands on the bench. */
void     cro_window_update_trial     (CroWindow      *self);

/* Says which were left open whose plate or menu was removed since. */
void     cro_window_tell_lost_trials (CroWindow      *self);

/* Puts a trial of it in front: the last that was left open, or a new one. */
void     cro_window_begin_trial      (CroWindow        *self,
                                      CroRef            ref);
/* Listens to a bench, if it is of trials. */
void     cro_window_watch_trial      (CroWindow      *self,
                                      CroBench       *bench);

/* --- cro-window-date.c -------------------------------------------------------------------------- */

void     cro_window_install_date     (GtkWidgetClass *widget_class);

void     cro_window_add_date         (CroWindow      *self);

/* A calendar where days are chosen, if there is none yet. */
void     cro_window_need_calendar    (CroWindow      *self);

/* Says of which day the book is, and the prices. */
void     cro_window_begin_date       (CroWindow      *self);

/* Another day may have been asked for: the calendar is of the one that is shown still, and the question stays. */
void     cro_window_refuse_date      (CroWindow      *self);

/* Prices are today's again, as their place is left. */
void     cro_window_leave_date       (CroWindow      *self);

/* The same after a price was entered: since is the newest change before it. */
void     cro_window_note_price       (CroWindow      *self,
                                      gint64          since);

/* --- cro-window-memory.c ------------------------------------------------------------------------ */

/* Remembers what stands on the bench, where it is scrolled to, the focus, and what was typed and
 * is not kept. Nothing moves. */
void     cro_window_remember         (CroWindow      *self);

/* What was open last in a place; CRO_REF_NOWHERE where nothing was, or it is gone. */
CroRef   cro_window_left_at          (CroWindow      *self,
                                      CroPlace        place);

/* The book is another: of nothing in it one knows that it was open. */
void     cro_window_forget_left      (CroWindow      *self);

/* Types again what the thing on the bench was left with, unless another window shows it. */
void     cro_window_restore_texts    (CroWindow      *self);

/* Once, before any other of these. */
void     cro_window_begin_scrolling  (CroWindow      *self);

/* Of the bench in sight, where another thing stands on it than before. */
void     cro_window_scroll_to_top    (CroWindow      *self);

/* How far the bench and the list of its place are scrolled, in pixels. */
typedef struct
{
  int page;
  int list;
} CroScrolled;

CroScrolled cro_window_get_scrolled  (CroWindow      *self);

/* There again, once what is on the bench now is laid out. */
void     cro_window_scroll_back      (CroWindow      *self,
                                      CroScrolled     to);

void     cro_window_go_where_it_was  (CroWindow      *self);

/* --- cro-window-open.c -------------------------------------------------------------------------- */

void     cro_window_install_opening  (GtkWidgetClass *widget_class);

/* Opens the book in a thread; folder, where it is not NULL: makes it from the tables there. */
void     cro_window_begin_work       (CroWindow      *self,
                                      const char     *path,
                                      const char     *folder);

/* Opens the book that is open as it stood at the end of a day, or else today's at its prices. */
void     cro_window_open_day         (CroWindow      *self,
                                      CroDate         day,
                                      gboolean        is_past);

/* Looks now and then for what other processes write into the book's file. */
void     cro_window_watch_file       (CroWindow      *self);

/* --- cro-window-wait.c -------------------------------------------------------------------------- */

/* What a thread knows of the window that waits for it. */
typedef struct
{
  CroWindow    *window;
  GCancellable *cancellable;
  double        from;       /* the part of the work that was done before this one */
  double        part;       /* and that this one is */
} CroWaiter;

/* Called in the thread: whether to go on, with the part that is done. user_data: a CroWaiter. */
gboolean cro_waiter_go_on            (gpointer        user_data,
                                      double          done);

/* Shows the page of what a thread does with data, and gives up what another does. in_thread returns a
 * pointer or an error; done ends with cro_window_end_run(). */
void     cro_window_run              (CroWindow      *self,
                                      const char     *doing,
                                      gpointer        data,
                                      GDestroyNotify  data_free,
                                      GTaskThreadFunc in_thread,
                                      GAsyncReadyCallback done);

/* The work is done; its page stays until another takes its place. *made: NULL where it failed. FALSE:
 * whoever cancelled has left the page already, or the window is gone. */
gboolean cro_window_end_run          (CroWindow      *self,
                                      GAsyncResult   *result,
                                      gpointer       *made,
                                      GError        **error);

/* The window as it was before it waited. */
void     cro_window_show_before      (CroWindow      *self);

void     cro_window_install_waiting  (GtkWidgetClass *widget_class);

/* --- cro-window-trouble.c ----------------------------------------------------------------------- */

/* The page that says why the book is not shown, and what one can do. */
void     cro_window_show_trouble     (CroWindow      *self,
                                      const GError   *error);

/* What holds for the whole book as long as it is open here. */
void     cro_window_show_banner      (CroWindow      *self);

/* --- cro-window-copy.c -------------------------------------------------------------------------- */

void     cro_window_install_copy     (GtkWidgetClass *widget_class);

/* --- cro-window-salvage.c ----------------------------------------------------------------------- */

void     cro_window_install_salvage  (GtkWidgetClass *widget_class);

/* --- cro-window-choose.c ------------------------------------------------------------------------ */

void     cro_window_install_choosing (GtkWidgetClass *widget_class);
void     cro_window_add_recent       (CroWindow      *self);

/* Presents a window that waits for its first book; any other is as it is. */
void     cro_window_end_hiding       (CroWindow      *self);

/* --- cro-window-bring.c ------------------------------------------------------------------------- */

void     cro_window_install_bringing (GtkWidgetClass *widget_class);
void     cro_window_add_bringing     (CroWindow      *self);

/* Shows what is understood of a spreadsheet; where no book is open, one is made for it. */
void     cro_window_bring            (CroWindow      *self,
                                      const char     *path);

/* By its name's ending. */
gboolean cro_window_is_spreadsheet   (const char     *path);

/* The same of the one that waited for a book to be opened. */
void     cro_window_bring_waiting    (CroWindow      *self);

/* --- cro-window-keys.c -------------------------------------------------------------------------- */

void     cro_window_install_keys     (GtkWidgetClass *widget_class);
void     cro_window_add_keys         (CroWindow      *self);

/* The digit of a key that was pressed; -1: it bears none. Where digits are typed with Shift, the key
 * alone is enough: nobody would find Alt+1 there otherwise. */
int      cro_window_digit            (GtkEventControllerKey *keys,
                                      guint                  keyval,
                                      guint                  keycode);

/* --- cro-window-demo.c -------------------------------------------------------------------------- */

/* What the demo's tables call their book. */
#define CRO_DEMO_BOOK "Saltmarsh Rooms"

/* The folder of the demo's tables; NULL: it is not there. Owned. */
char *cro_window_dup_demo_folder (void);

/* Shows the demo's notes that nobody has dismissed. */
void  cro_window_show_notes      (CroWindow      *self);

/* One of them stands for all where the list gave way; no note, nothing. */
void  cro_window_fit_notes       (CroWindow      *self);
