package diagram

// WithstandKind is the way in which a withstand is stated. The empty value is
// not known.
type WithstandKind string

// The ways to state a withstand.
const (
	ByCategory WithstandKind = "category" // overvoltage category of IEC 60664-1
	ByMultiple WithstandKind = "multiple" // a multiple of the crest of the nominal voltage
	ByVolts    WithstandKind = "volts"
)

// Withstand is the surge that equipment stands. Only the field that Kind
// names counts.
type Withstand struct {
	Kind     WithstandKind
	Category int     // 1 to 4
	Multiple float64 // of the crest of the nominal voltage across the mode
	Volts    float64 // V, peak
}
