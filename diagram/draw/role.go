package draw

import "strconv"

// Role is a colour by meaning. A [Palette] says what colour that is.
type Role uint8

// The roles of a sheet.
const (
	RoleInk        Role = iota // main strokes and text
	RoleFaint                  // secondary strokes and text
	RolePaper                  // the sheet itself
	RoleGrid                   // dots of the grid
	RoleCard                   // background of a tag
	RoleHeld                   // verdict Held
	RoleTight                  // verdict Tight
	RoleExceeded               // verdict Exceeded
	RoleUnreached              // verdict Unreached
	RoleUnknown                // verdict Unknown
	RoleAccent                 // selection, guides
	RoleAccentSoft             // halo of the selection
	RoleOnVerdict              // letter on a verdict's badge
	RoleNone                   // nothing is drawn
)

// RoleCount is the number of roles, RoleNone among them.
const RoleCount = int(RoleNone) + 1

var roleNames = [RoleCount]string{
	"ink", "faint", "paper", "grid", "card", "held", "tight", "exceeded",
	"unreached", "unknown", "accent", "accent-soft", "on-verdict", "none",
}

// String returns the role's name in the text form of a picture.
func (r Role) String() string {
	if int(r) < RoleCount {
		return roleNames[r]
	}
	return "role" + strconv.Itoa(int(r))
}

// tinted returns the role in which ink is drawn when a picture is placed in
// tint; other roles stay.
func (r Role) tinted(tint Role) Role {
	if r == RoleInk {
		return tint
	}
	return r
}
