package diagram

// Preset is a system with the name under which people know it.
type Preset struct {
	Name   string
	System System
}

// Presets returns the systems to pick from. Any other can be typed in.
func Presets() []Preset {
	return []Preset{
		{"120/240 V split phase", System{Split, 240, true, Solid, 60}},
		{"120/208 V, two lines of a wye", System{TwoOfWye, 208, true, Solid, 60}},
		{"208Y/120 V", System{Wye, 208, true, Solid, 60}},
		{"240 V delta", System{Delta, 240, false, Unearthed, 60}},
		{"240/120 V high-leg delta", System{HighLeg, 240, true, Solid, 60}},
		{"480Y/277 V", System{Wye, 480, true, Solid, 60}},
		{"480 V delta", System{Delta, 480, false, Unearthed, 60}},
		{"600Y/347 V", System{Wye, 600, true, Solid, 60}},
		{"480 V corner-grounded delta", System{Delta, 480, false, Corner, 60}},
		{"480 V high-resistance-grounded wye", System{Wye, 480, false, Impedance, 60}},
		{"120 V single phase", System{Single, 120, true, Solid, 60}},
		{"277 V single phase", System{Single, 277, true, Solid, 60}},
		{"240 V, two lines without neutral", System{Single, 240, false, Solid, 60}},
		{"480 V, three lines without neutral", System{Wye, 480, false, Solid, 60}},
		{"400/230 V TN-S", System{Wye, 400, true, TNS, 50}},
		{"400/230 V TN-C-S", System{Wye, 400, true, TNCS, 50}},
		{"400/230 V TT", System{Wye, 400, true, TT, 50}},
		{"400 V IT", System{Wye, 400, false, IT, 50}},
		{"690/400 V", System{Wye, 690, true, TNS, 50}},
		{"230 V single phase", System{Single, 230, true, TNS, 50}},
	}
}
