package diagram

// Kind is the kind of a part.
type Kind string

// The kinds of part.
const (
	Supply         Kind = "supply"
	Generator      Kind = "generator"
	TransferSwitch Kind = "transfer switch"
	Transformer    Kind = "transformer"
	Switchboard    Kind = "switchboard"
	Panel          Kind = "panel"
	Load           Kind = "load"
	Junction       Kind = "junction"
	Note           Kind = "note"
)

// Kinds returns every kind, in the order of the strip of parts.
func Kinds() []Kind {
	return []Kind{Supply, Generator, TransferSwitch, Transformer, Switchboard, Panel, Load, Junction, Note}
}

// Valid reports whether the kind is one of Kinds.
func (k Kind) Valid() bool { return k.stem() != "" }

// IsSource reports whether the part feeds the building.
func (k Kind) IsSource() bool { return k == Supply || k == Generator }

// IsBoard reports whether the part is drawn as a bus bar.
func (k Kind) IsBoard() bool { return k == Switchboard || k == Panel }

// TakesProtector reports whether a protector can be attached.
func (k Kind) TakesProtector() bool { return k.IsBoard() || k == Load || k == Junction }

// IsJudged reports whether the part is a bus or a piece of equipment that gets
// a verdict.
func (k Kind) IsJudged() bool { return k.IsBoard() || k == Load }

// Ports returns the names of the terminals that feeders connect to, the side
// toward the supply first. A single terminal has the empty name.
func (k Kind) Ports() []Port {
	switch k {
	case Note:
		return nil
	case Transformer:
		return []Port{Primary, Secondary}
	case TransferSwitch:
		return []Port{Normal, Emergency, Common}
	}
	return []Port{""}
}

// HasPort reports whether the kind has a terminal of that name.
func (k Kind) HasPort(port Port) bool {
	for _, own := range k.Ports() {
		if own == port {
			return true
		}
	}
	return false
}

// stem returns the first word of new ids of the kind, or nothing where the
// kind is not known.
func (k Kind) stem() string {
	switch k {
	case Supply, Generator, Transformer, Switchboard, Panel, Load, Junction, Note:
		return string(k)
	case TransferSwitch:
		return "transfer"
	}
	return ""
}

// Port names a terminal of a part.
type Port string

// The named ports.
const (
	Primary   Port = "primary"
	Secondary Port = "secondary"
	Normal    Port = "normal"
	Emergency Port = "emergency"
	Common    Port = "load"
)
