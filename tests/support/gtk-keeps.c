/* What GTK 4.18 makes and never frees is kept from the leak checker by the names of those who make it. A list of names
 * cannot do so: the checker's stack ends at GLib, which is built without frame pointers. So these functions of GLib's
 * are called through here, and look who calls. All else that is lost is shown. */
#include <dlfcn.h>
#include <gtk/gtk.h>
#include <sanitizer/lsan_interface.h>

/* Bytes; a function is shorter, and its static neighbour not farther away. */
#define REACH 2048

static gboolean
is_in (const char *caller,
       const char *function)
{
  const char *at = dlsym (RTLD_DEFAULT, function);

  return at != NULL && ABS (caller - at) < REACH;
}

/* gtk_widget_add_mnemonic_label () forgets the list that it asks for, and a label of a shortcut that of the keys
 * before. Many call this: the places are looked up once. */
GList *
g_list_prepend (GList    *list,
                gpointer  data)
{
  static GList *(*prepend) (GList *, gpointer);
  static const char *kept, *also;
  const char *caller = __builtin_return_address (0);

  if (prepend == NULL)
    {
      kept = dlsym (RTLD_DEFAULT, "gtk_widget_list_mnemonic_labels");
      also = dlsym (RTLD_DEFAULT, "gtk_shortcut_label_set_accelerator");
      *(void **) &prepend = dlsym (RTLD_NEXT, "g_list_prepend");
    }
  if (ABS (caller - kept) >= REACH && ABS (caller - also) >= REACH)
    return prepend (list, data);
  __lsan_disable ();
  list = prepend (list, data);
  __lsan_enable ();
  return list;
}

/* Reading from a clipboard that has nothing of the kind keeps its task: the neighbour of the functions that begin
 * it. */
#undef g_task_new
GTask *
g_task_new (gpointer             source,
            GCancellable        *cancellable,
            GAsyncReadyCallback  callback,
            gpointer             callback_data)
{
  gboolean is_kept = is_in (__builtin_return_address (0), "gdk_clipboard_read_texture_async");
  GTask *(*make) (gpointer, GCancellable *, GAsyncReadyCallback, gpointer);
  GTask *task;

  *(void **) &make = dlsym (RTLD_NEXT, "g_task_new");
  if (!is_kept)
    return make (source, cancellable, callback, callback_data);
  __lsan_disable ();
  task = make (source, cancellable, callback, callback_data);
  __lsan_enable ();
  return task;
}

/* A window that is taken apart can make a muxer of actions for itself once more, after it gave up the one it had. */
static gboolean is_taken_apart;

void
gtk_window_destroy (GtkWindow *window)
{
  void (*destroy) (GtkWindow *);

  *(void **) &destroy = dlsym (RTLD_NEXT, "gtk_window_destroy");
  is_taken_apart = TRUE;
  destroy (window);
  is_taken_apart = FALSE;
}

#undef g_object_new
gpointer
g_object_new (GType       type,
              const char *first,
              ...)
{
  gboolean is_kept = is_taken_apart && type == g_type_from_name ("GtkActionMuxer");
  gpointer object;
  va_list rest;

  va_start (rest, first);
  if (is_kept)
    __lsan_disable ();
  object = g_object_new_valist (type, first, rest);
  if (is_kept)
    __lsan_enable ();
  va_end (rest);
  return object;
}
