package diagram

// Mode is a pair of kinds of conductor between which a voltage stands.
type Mode uint8

// The modes, in the order in which they are listed. G is the earth (ground)
// conductor; L is any line.
const (
	LineNeutral Mode = iota
	LineEarth
	NeutralEarth
	LineLine
	ModeCount = 4
)

// Modes returns every mode, in order.
func Modes() [ModeCount]Mode {
	return [ModeCount]Mode{LineNeutral, LineEarth, NeutralEarth, LineLine}
}

// String returns the trade's short form: L-N, L-G, N-G or L-L.
func (m Mode) String() string {
	if int(m) < ModeCount {
		return [ModeCount]string{"L-N", "L-G", "N-G", "L-L"}[m]
	}
	return "mode ?"
}
