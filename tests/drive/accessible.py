"""What the accessibility bus tells of a program, by the D-Bus interfaces of AT-SPI 2 (at-spi2-core, xml/).

A window has hundreds of widgets, each with a role, a name and states to ask for. All is asked before the first
answer is there: to wait for each in turn takes several times as long, and as much of the program's time.
"""

import functools
import re

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, Gio, GLib  # noqa: E402

ACCESSIBLE = "org.a11y.atspi.Accessible"
ACTION = "org.a11y.atspi.Action"
TEXT = "org.a11y.atspi.Text"
PROPERTIES = "org.freedesktop.DBus.Properties"

NAME = GLib.Variant("(ss)", (ACCESSIBLE, "Name"))

# There is nothing in them, and half of all that is in sight are of these.
LEAVES = {int(Atspi.Role.LABEL), int(Atspi.Role.SEPARATOR)}

# All programs are below it.
DESKTOP = ("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root")


def _connect(address):
  return Gio.DBusConnection.new_for_address_sync(
    address, Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION,
    None, None)


def is_among(states, state):
  """Whether one is set: 32 bits in each of two numbers, the lowest first."""
  bit = int(getattr(Atspi.StateType, state.upper()))
  return bool(states[bit // 32] >> bit % 32 & 1)


@functools.cache
def name_of(role):
  """By the number of a role."""
  # GTK 4.10 began to tell a button that stays pressed apart from others.
  return Atspi.role_get_name(Atspi.Role(role)).removeprefix("push ").removeprefix("toggle ")


class Bus:
  def __init__(self, session):
    """session: the address of the session's bus, which knows where this one is."""
    address, = _connect(session).call_sync("org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress", None, None,
                                           Gio.DBusCallFlags.NONE, -1, None).unpack()
    self.connection = _connect(address)
    self.waiting = 0

  def ask(self, place, interface, method, arguments=None):
    """An answer, waited for; GLib.Error where the widget is gone."""
    return self.connection.call_sync(*place, interface, method, arguments, None, Gio.DBusCallFlags.NONE, -1,
                                     None).unpack()[0]

  def ask_for(self, place, interface, name):
    """A property."""
    return self.ask(place, PROPERTIES, "Get", GLib.Variant("(ss)", (interface, name)))

  def ask_later(self, then, place, interface, method, arguments=None):
    """An answer as a GLib.Variant, told to then () while settle () waits; what is gone meanwhile tells nothing."""
    def answered(connection, result):
      self.waiting -= 1
      try:
        answer = connection.call_finish(result)
      except GLib.Error:
        return
      then(answer.get_child_value(0))
    self.waiting += 1
    self.connection.call(*place, interface, method, arguments, None, Gio.DBusCallFlags.NONE, -1, None, answered)

  def settle(self):
    while self.waiting > 0:
      GLib.MainContext.default().iteration(True)


class Seen:
  """A widget. What read () has found of it is of that moment; all else is asked for when it is wanted."""

  def __init__(self, bus, place):
    self.bus, self.place = bus, place   # place: the program's name on the bus, and the path there
    self.children = []                  # those in sight, once it is read
    self._role = self._name = None
    self._states = (0, 0)
    self._is_asked_name = False

  @classmethod
  def of(cls, bus, node):
    """That of the client library, which tells of events."""
    return cls(bus, (node.app.bus_name, node.path))

  @property
  def role(self):
    role = self.bus.ask(self.place, ACCESSIBLE, "GetRole") if self._role is None else self._role
    return name_of(role)

  @property
  def name(self):
    name = self.bus.ask_for(self.place, ACCESSIBLE, "Name") if self._name is None else self._name
    # GTK 4.18 gives an item of a menu no name but leads to its label, which has a text and no name either.
    if name == "" and self.role == "menu item":
      name = " ".join(Seen(self.bus, place).text for place in self._related(Atspi.RelationType.LABELLED_BY))
    # A label with a mnemonic is told twice.
    return re.sub(r"^(.*?)_(.*) \1\2$", r"\1\2", name)

  @property
  def parent(self):
    return Seen(self.bus, self.bus.ask_for(self.place, ACCESSIBLE, "Parent"))

  @property
  def parts(self):
    """All that is in it now, in sight or not, of which nothing is read yet."""
    return [Seen(self.bus, place) for place in self.bus.ask(self.place, ACCESSIBLE, "GetChildren")]

  @property
  def text(self):
    length = self.bus.ask_for(self.place, TEXT, "CharacterCount")
    return self.bus.ask(self.place, TEXT, "GetText", GLib.Variant("(ii)", (0, length)))

  def has(self, state):
    return is_among(self.bus.ask(self.place, ACCESSIBLE, "GetState"), state)

  def still_has(self, state):
    """False where it is gone."""
    try:
      return self.has(state)
    except GLib.Error:
      return False

  def had(self, state):
    """When it was read."""
    return is_among(self._states, state)

  def press(self):
    for i in range(self.bus.ask_for(self.place, ACTION, "NActions")):
      if self.bus.ask(self.place, ACTION, "GetName", GLib.Variant("(i)", (i,))) == "click":
        self.bus.ask(self.place, ACTION, "DoAction", GLib.Variant("(i)", (i,)))
        return
    raise AssertionError(f"{self.role} {self.name!r} cannot be pressed")

  def read(self, roles=None):
    """Reads all that is in sight below it, and the names of what has one of the roles; None: all names."""
    self._ask_children(roles)
    self.bus.settle()
    self._leave_out()
    return self

  def walk(self):
    """All that read () found below it, parents first."""
    for child in self.children:
      yield child
      yield from child.walk()

  def _related(self, relation):
    """The places of what it leads to so."""
    return [place for number, places in self.bus.ask(self.place, ACCESSIBLE, "GetRelationSet")
            if number == int(relation) for place in places]

  def _ask_children(self, roles):
    def take(places):
      for place in places.unpack():
        child = Seen(self.bus, place)
        self.children.append(child)
        if self.place == DESKTOP:
          child._ask_role(roles)
        else:
          child._ask_states(roles)

    self.children = []
    self.bus.ask_later(take, self.place, ACCESSIBLE, "GetChildren")

  def _ask_states(self, roles):
    def take(states):
      self._states = [states.get_child_value(i).get_uint32() for i in range(2)]
      if self.had("visible"):
        self._ask_role(roles)

    self.bus.ask_later(take, self.place, ACCESSIBLE, "GetState")

  def _ask_role(self, roles):
    def take(role):
      self._role = role.get_uint32()
      self._is_asked_name = roles is None or name_of(self._role) in roles
      if self._is_asked_name:
        self.bus.ask_later(take_name, self.place, PROPERTIES, "Get", NAME)
      if self._role not in LEAVES:
        self._ask_children(roles)

    def take_name(name):
      self._name = name.get_variant().get_string()

    self.bus.ask_later(take, self.place, ACCESSIBLE, "GetRole")

  def _leave_out(self):
    """Those that are not in sight, or went away while they were read."""
    self.children = [child for child in self.children
                     if child._role is not None and not (child._is_asked_name and child._name is None)]
    for child in self.children:
      child._leave_out()
