"""A person at the window: keys in, what the accessibility bus tells out.

Each session has a screen, a window manager, a bus and home folders of its own, and ends all of
them by their process groups. One session per process: the client of the accessibility bus keeps
the first bus that it meets. Where a tool for it is not installed the test is skipped (77).
"""

import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

SKIP = 77
TOOLS = ("Xvfb", "openbox", "dbus-daemon", "xdotool", "xprop", "setxkbmap")
PATIENCE = 30 * float(os.environ.get("CROUSTADE_TEST_PATIENCE", "1"))

for tool in TOOLS:
  if shutil.which(tool) is None:
    print(f"skipped: there is no {tool}")
    sys.exit(SKIP)
try:
  import gi
  gi.require_version("Atspi", "2.0")
except (ImportError, ValueError):
  print("skipped: there is no client of the accessibility bus")
  sys.exit(SKIP)
from accessible import Atspi, Bus, DESKTOP, GLib, Seen  # noqa: E402

BARE = {
  "GDK_BACKEND": "x11", "GSK_RENDERER": "cairo", "GTK_A11Y": "atspi", "LC_ALL": "C.UTF-8",
  "GSETTINGS_BACKEND": "memory", "G_DEBUG": "fatal-criticals",
}


def comes(condition, patience):
  """The first true value of condition; its last one where there is none."""
  end = time.monotonic() + patience
  while True:
    try:
      value = condition()
    except GLib.Error:  # a widget went away while it was read
      value = None
    if value or time.monotonic() > end:
      return value
    time.sleep(0.05)


def until(condition, what, patience=PATIENCE):
  """The first true value of condition; a failure that names what was waited for."""
  value = comes(condition, patience)
  if not value:
    raise AssertionError(f"not within {patience:.0f} s: {what}")
  return value


class Session:
  def __init__(self, program, *arguments, environment=None, size="1366x900"):
    self.command = [program, *arguments]
    self.size = size
    self.home = tempfile.mkdtemp(prefix="croustade-drive-")
    self.environment = {**os.environ, **BARE, "HOME": self.home, "XDG_RUNTIME_DIR": self.home,
                        **{f"XDG_{kind}_HOME": f"{self.home}/{kind.lower()}"
                           for kind in ("CONFIG", "DATA", "CACHE", "STATE")},
                        **(environment or {})}
    self.processes = []
    self.program = None
    self.bus = self.listener = self.last_focus = None
    self.moves = 0

  # --- Beginning and ending ------------------------------------------------------------------

  def __enter__(self):
    try:
      self.write_settings()
      # A number of its own: servers that look for a free one at the same time can take the same.
      screen = f":{1000 + os.getpid() % 30000}"
      # One that begins anew when its last client leaves throws out those that are just coming.
      self.serve("Xvfb", screen, "-noreset", "-screen", "0", f"{self.size}x24", "-nolisten", "tcp",
                 "-displayfd", "{}")
      self.environment["DISPLAY"] = screen
      self.environment["DBUS_SESSION_BUS_ADDRESS"] = self.serve(
        "dbus-daemon", "--session", "--nofork", "--print-address={}")
      os.environ.update({name: self.environment[name]
                         for name in ("DISPLAY", "DBUS_SESSION_BUS_ADDRESS", "XDG_RUNTIME_DIR")})
      self.bus = Bus(self.environment["DBUS_SESSION_BUS_ADDRESS"])
      self.start("openbox", "--sm-disable")
      until(lambda: "window id" in self.tool("xprop", "-root", "_NET_SUPPORTING_WM_CHECK"),
            "a window manager")
      self.tool("setxkbmap", "de")  # with the US layout some letters arrive in the wrong case
      # A list that opens under the pointer takes what the pointer is on for chosen.
      self.tool("xdotool", "mousemove", "0", "0")
      self.open_program()
      return self
    except BaseException:
      self.__exit__(*sys.exc_info())
      raise

  def __exit__(self, kind, *_):
    if kind is not None:
      name = os.path.splitext(os.path.basename(sys.argv[0]))[0]
      # Beside the program, as the tree that it was built from may be read only.
      self.picture(f"{os.path.dirname(os.path.abspath(self.command[0]))}/{name}-failed.png")
      with open(f"{self.home}/log", encoding="utf-8", errors="replace") as log:
        sys.stderr.write(log.read())
    for process in reversed(self.processes):
      self.end(process)
    shutil.rmtree(self.home, ignore_errors=True)

  def write_settings(self):
    folder = f"{self.home}/config/gtk-4.0"
    os.makedirs(folder)
    with open(f"{folder}/settings.ini", "w", encoding="utf-8") as settings:
      settings.write("[Settings]\ngtk-enable-animations=0\ngtk-cursor-blink=0\n")

  def start(self, *command, **more):
    with open(f"{self.home}/log", "a", encoding="utf-8") as log:
      self.processes.append(subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=log, stderr=log,
                                             env=self.environment, start_new_session=True, **more))
    return self.processes[-1]

  def serve(self, *command):
    """Starts a server that writes where it is to the descriptor put for {}."""
    reading, writing = os.pipe()
    self.start(*(part.format(writing) for part in command), pass_fds=[writing])
    os.close(writing)
    with os.fdopen(reading) as pipe:
      return pipe.readline().strip()

  @staticmethod
  def end(process):
    for sign in (signal.SIGTERM, signal.SIGKILL):
      try:
        os.killpg(process.pid, sign)
        process.wait(5)
      except (ProcessLookupError, subprocess.TimeoutExpired):
        pass

  def open_program(self, *arguments):
    self.program = self.start(*(self.command + list(arguments)))
    until(self.top_windows, "a window")

  def close_program(self):
    """As a person does, who closes the last window."""
    self.press("ctrl+q")
    until(lambda: self.program.poll() is not None, "the end of the program")
    assert self.program.returncode == 0, f"the program ended with {self.program.returncode}"

  # --- Doing ----------------------------------------------------------------------------------

  def tool(self, *command):
    return subprocess.run(command, capture_output=True, text=True, check=False,
                          env=self.environment).stdout

  def top_windows(self):
    return self.tool("xdotool", "search", "--onlyvisible", "--class", "croustade").split()

  def active_window(self):
    return self.tool("xdotool", "getactivewindow").strip()

  def press(self, *keys):
    self.tool("xdotool", "key", "--delay", "30", *keys)

  def write(self, text):
    # A letter that no key has gets one for as long as it is typed: a busy window sees it late.
    for part in re.findall("[\x00-\x7f]+|[^\x00-\x7f]", text):
      self.tool("xdotool", "type", "--delay", "12" if part.isascii() else f"{PATIENCE / 30 * 400:.0f}", "--", part)

  def enter(self, text):
    """Types over what stands in the field, and keeps it."""
    self.press("ctrl+a")
    self.write(text)
    self.press("Return")

  def pick(self, name):
    """Opens the menu of the button that has the focus, and takes one of it: it hears keys once it has the focus."""
    self.press("Return")
    self.focus_is("menu item")
    self.go("Down", "menu item", name)
    self.press("Return")

  def choose(self, title, path):
    """Types a path into a chooser of files and takes it. Keys go to what has the focus, and a chooser has it some time
    after it is on the screen: it is awaited, and what stands there is read before Enter."""
    first = until(lambda: self.focus_within(title), f"the focus in the chooser {title!r}")
    if first.role == "text":
      self.press("ctrl+a")
      self.write(path)
    else:  # it has but a list, and an entry from a slash on
      self.write(path[0])
      self.focus_is("text", window=title)
      self.write(path[1:])
    # To the name of a folder it adds a slash of its own. What it proposes can come between keys that are quicker than
    # its reading of the folder, and stays behind the cursor: there it is taken away. Where it stands before the cursor
    # too the path is typed once more, as a person would, and slower each time.
    stands = lambda: self.focus_is("text", window=title).text.rstrip("/") == path
    for delay in (30, 100, 300):
      if comes(stands, 5):
        break
      self.press("shift+End", "Delete")
      if comes(stands, 5):
        break
      self.press("ctrl+a")
      self.tool("xdotool", "type", "--delay", str(delay), "--", path)
    until(stands, f"{path!r} in {title!r}")
    # It takes a file for a folder at times, and finds nothing in it.
    if os.path.isfile(path) and self.focus_is("text", window=title).text != path:
      self.press("End", "BackSpace")
    # Enter may but take what it proposes, which is what stands there.
    chooser = self.active_window()
    for _ in range(2):
      self.press("Return")
      if comes(lambda: self.active_window() not in ("", "0", chooser), 5):
        return
    self.leave("Return")

  def leave(self, key):
    """Presses the key that ends the window in front, and waits for the one beneath it to hear keys."""
    front = self.active_window()
    self.press(key)
    until(lambda: self.active_window() not in ("", "0", front), "the window beneath the one that ends")

  def picture(self, path):
    if shutil.which("import") is not None:
      self.tool("import", "-window", "root", path)

  # --- Seeing ---------------------------------------------------------------------------------

  def read(self, roles=None):
    """All that is in sight now, from the desktop down; the names of some roles, or of all."""
    return Seen(self.bus, DESKTOP).read(roles)

  def each(self, roles, name):
    return (seen for seen in self.read(roles).walk() if seen.role in roles and re.fullmatch(name, seen.name))

  def all(self, role, name=".*"):
    return list(self.each((role,), name))

  def find(self, role, name=".*"):
    return until(lambda: next(self.each((role,), name), None), f"{role} {name!r}")

  def reads(self, name):
    """Waits for a text on the screen: a label's, or a button's name."""
    return until(lambda: next(self.each(("label", "button"), name), None), f"the text {name!r}")

  def watch_focus(self):
    """From now on the focus is told by the program, which is faster than to look for it."""
    def moved(event):
      if event.detail1:
        self.last_focus = Seen.of(self.bus, event.source)
        self.moves += 1
    self.listener = Atspi.EventListener.new(moved)
    self.listener.register("object:state-changed:focused")
    self.last_focus = None

  def focused(self):
    if self.listener is not None:
      while GLib.MainContext.default().iteration(False):
        pass
      # Where its window has gone, or another one is before it, it is not told where the focus is instead.
      if self.last_focus is not None and self.last_focus.still_has("focused"):
        return self.last_focus
    return next((seen for seen in self.read(()).walk() if seen.had("focused")), None)

  def focus_within(self, title):
    """Where the focus is in a window by its title: a new one does not tell of its first."""
    for program in Seen(self.bus, DESKTOP).parts:
      for window in program.parts:
        if re.fullmatch(title, window.name):
          return next((seen for seen in window.read(()).walk() if seen.had("focused")), None)
    return None

  def focus_is(self, role, name=".*", window=None):
    """window: the title of one that comes up, beneath which another one may keep a focus of its own."""
    def there():
      seen = self.focused() if window is None else self.focus_within(window)
      return seen if seen and seen.role == role and re.fullmatch(name, seen.name) else None
    return until(there, f"the focus on {role} {name!r}")

  def step(self, key):
    """Presses a key and gives the focus time to move; it need not."""
    moves = self.moves
    self.press(key)
    if self.listener is None:
      time.sleep(0.2)
      return
    end = time.monotonic() + 3
    while time.monotonic() < end and self.moves == moves:
      time.sleep(0.01)
      while GLib.MainContext.default().iteration(False):
        pass

  def go(self, key, role, name, most=12):
    """Presses a key until the focus is where it should come to."""
    passed = []
    for _ in range(most):
      seen = self.focused()
      passed.append(seen.name if seen else "nothing")
      if seen and seen.role == role and re.fullmatch(name, seen.name):
        return seen
      self.step(key)
    raise AssertionError(f"{key} does not lead to {role} {name!r}, but to {passed}")

  def books(self):
    """Books in the person's folder."""
    return sorted(name for name in os.listdir(self.home) if name.endswith(".croustade"))
