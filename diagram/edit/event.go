package edit

import "clampline/diagram/geom"

// EventKind is what happened.
type EventKind uint8

// The kinds of event. A click is Press and Release; what the window takes for
// the second click of a pair comes as DoubleClick in place of Press.
const (
	Press       EventKind = iota
	Drag                  // the pointer moved with a button held
	Release               // the button came up, or the drag ended outside
	Hover                 // the pointer moved with no button held
	DoubleClick           // a second press soon after the first
	Scroll                // wheel or two fingers, by Delta
	KeyPress              // Key went down or repeats
	KeyRelease            // Key came up, or the keys go elsewhere
	Leave                 // the pointer left the sheet
	Cancel                // the gesture is to be dropped, as by a lost window
)

// Button is a button of the mouse.
type Button uint8

// The buttons.
const (
	Left Button = iota
	Middle
	Right
)

// Modifiers are the keys held during an event, added together.
type Modifiers uint8

// The modifiers. Control stands for the key that shortcuts use, which is
// Command on a Macintosh.
const (
	Shift Modifiers = 1 << iota
	Control
	Alt
	Space
)

// Has reports whether all of the given modifiers are held.
func (m Modifiers) Has(which Modifiers) bool { return m&which == which }

// Names of keys in events and shortcuts. Letters, digits and signs are
// themselves, letters in upper case.
const (
	KeyUp        = "Up"
	KeyDown      = "Down"
	KeyLeft      = "Left"
	KeyRight     = "Right"
	KeyEnter     = "Enter"
	KeyEscape    = "Escape"
	KeyTab       = "Tab"
	KeyDelete    = "Delete"
	KeyBackspace = "Backspace"
	KeyPageUp    = "PageUp"
	KeyPageDown  = "PageDown"
)

// Event is one thing that the person did on the sheet.
type Event struct {
	Kind      EventKind
	At        geom.Point  // mm on the sheet, of pointer events
	Screen    ScreenPoint // the same place in the window
	Button    Button
	Modifiers Modifiers
	Key       string      // of KeyPress and KeyRelease
	Delta     ScreenPoint // of Scroll: by how much the sheet is to move on the screen
}

// Cursor is the shape of the pointer.
type Cursor uint8

// The cursors.
const (
	Arrow Cursor = iota
	Cross
	Move
	Hand
	ResizeH
	ResizeV
)
