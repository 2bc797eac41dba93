/* workbench.h: what most files of the workbench include, compiled once for all of them. No file may
 * rely on it: it is left out of the build that people make. */
#include <adwaita.h>
#include <glib/gi18n.h>
#include <gtk/gtk.h>
