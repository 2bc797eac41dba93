/* kitchen.h: what most files of the kitchen include, compiled once for all of them. No file may rely
 * on it: it is left out of the build that people make. */
#include <gio/gio.h>
#include <glib/gi18n.h>
#include <glib.h>
#include <math.h>
#include <string.h>
