package diagram

import "slices"

// The fields of surge cases and of findings that are set aside.

// SurgeFields returns the fields of a surge case.
func SurgeFields() []Field[Surge] { return surgeFields }

var surgeFields = slices.Concat(
	named(func(s *Surge) *string { return &s.Name }, func(s *Surge) *string { return &s.Note }),
	[]Field[Surge]{
		orderField(func(s *Surge) *int { return &s.Order }, "Surge cases"),
		idField("part", func(s *Surge) *ID { return &s.Part }, "arrives at", "The id of the part at which it arrives", "the supply that is in use"),
		spoken(wordField("places", PlacesKinds(), func(s *Surge) *Places { return &s.Places }, "places", "At how many places it arrives, one after the other: each board and load then shows the worst, and from where that comes. Where a part is named, only those in its transformer zone count", "one place"), "every board and load"),
		atMany(spoken(wordField("category", Categories(), func(s *Surge) *Category { return &s.Category }, "location category", "Of many places only those of this location category of IEEE C62.41 count: A is a load more than 10 m of wires up to 10 AWG away from its board, B is every other", "A or B"), "A, long branch circuits", "B, boards and what is near")),
		atMany(spoken(wordField("switching", Switchings(), func(s *Surge) *Switching { return &s.Switching }, "makes surges like", "Of many places only those count that make surges of their own like this; a board is an ordinary place", "any"), "an ordinary load", "contactors, drive, welder", "a capacitor bank")),
		needed(wordField("path", Paths(), func(s *Surge) *Path { return &s.Path }, "path", "Between which conductors it arrives; “lines to earth” is all lines alike")),
		spoken(needed(wordField("wave", Waves(), func(s *Surge) *Wave { return &s.Wave }, "wave", "Its shape over time; two numbers are front time and time to half value in microseconds; the current of “combination” ends after some 25 µs, that of “laboratory combination” turns there and swings back by a third")), "1.2/50 and 8/20 µs", "1.2/50, 8/20 µs, swinging", "ring, 0.5 µs 100 kHz", "10/350 µs", "8/20 µs", "10/1000 µs", "burst pulse, 5/50 ns"),
		needed(numberField("voltage", voltages.needed(), UsualSurgeVoltage, func(s *Surge) *float64 { return &s.Voltage }, "open-circuit voltage", "Crest with the terminals of the generator open")),
		needed(numberField("current", currents.needed(), UsualSurgeCurrent, func(s *Surge) *float64 { return &s.Current }, "short-circuit current", "Crest with the terminals of the generator shorted")),
	},
)

// atMany returns the field as one that counts of a surge that arrives at many places.
func atMany(f Field[Surge]) Field[Surge] {
	f.counts = func(s *Surge) bool { return s.Places != "" }
	return f
}

// AsideFields returns the fields of a finding that is set aside.
func AsideFields() []Field[Aside] { return asideFields }

var asideFields = []Field[Aside]{
	needed(idField("plan", func(a *Aside) *ID { return &a.Plan }, "", "The id of the plan in which it is set aside")),
	needed(textField("rule", func(a *Aside) *string { return &a.Rule }, "", "The id of the rule that finds it")),
	idField("about", func(a *Aside) *ID { return &a.About }, "", "The id of the part, feeder or protector that it is about", "none"),
	textField("detail", func(a *Aside) *string { return &a.Detail }, "", "Which of several findings of the rule about the record"),
	wordField("severity", []string{"note", "warning", "error"}, func(a *Aside) *string { return &a.Severity }, "", "How grave it was: one that is graver since counts again", "note"),
	textField("reason", func(a *Aside) *string { return &a.Reason }, "reason", "Why it does not count here"),
	textField("by", func(a *Aside) *string { return &a.By }, "who says so", "Name of the person who says so"),
	textField("day", func(a *Aside) *string { return &a.Day }, "day", "On which day"),
}
