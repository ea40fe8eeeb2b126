package survey

import (
	"cmp"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// workFirst is what a crew does before and after, at every board: common practice, no
// source, but for the lock-out, which is that of Cautions.
func workFirst(c unit.Convention) []string {
	return []string{
		"Lock out first: open and lock what feeds the board and every other source, and verify that no voltage is left, before a cover comes off.",
		"Neutral and " + unit.EarthWord(c) + " leads count as much as the phases: all of them at their target or shorter. If one must be longer, the " + unit.EarthWord(c) + " stays the shortest.",
		"Lay the leads together, twisted once every 4 in (100 mm); no coil, no sharp bend. Torque as on the label.",
		"Before energising: compare the nameplate with this page, count the leads, look for what is loose. Write down what was built.",
		"After energising: the indicator shows what its label calls in order. If it does not, de-energise, and tell who planned this.",
	}
}

// orders says of a protector what is to be built: its breaker, and how long its leads
// are to be and may be.
func (m phoneMaker) orders(lines []Line, table int) []string {
	if !m.Work || table != protectors {
		return nil
	}
	value := func(key string) string { return lineOf(lines, key).Value }
	out := []string{"Breaker: " + cmp.Or(value("breaker.rated"), "none, or not stated") + bounds(lines)}
	if kind := value(keyType); kind != "" {
		out = append(out, "It is "+kind+", SCCR "+cmp.Or(value("sccr"), "not known")+".")
	}
	steps, holds := m.Longer[diagram.ID(value(keyID))]
	for _, line := range lines {
		if line.role != asks || !isLeadLength(line.column) {
			continue
		}
		text := line.Label + ": target " + line.Value
		if holds {
			length := *line.Number(line.of) + float64(steps)*LeadStep(m.convention)
			text += ", greatest " + unit.Format(length, unit.LeadLength, m.convention)
		}
		out = append(out, text)
	}
	switch {
	case holds:
		out = append(out, "The greatest lengths hold together, by the hand rule: with all leads so long no voltage gets a worse verdict.")
	case m.Longer != nil:
		out = append(out, "By the hand rule the place is not held as it is planned, or its withstand is not known: keep the leads as short as can be.")
	}
	return out
}

// bounds says within what the protector asks its breaker to be.
func bounds(lines []Line) string {
	p := &lineOf(lines, keyName).of.protector
	field := func(key string) string {
		f := diagram.FieldOf(diagram.ProtectorFields(), key)
		return f.Said(p, unit.NorthAmerican) // amperes are written alike
	}
	out := ""
	if poles := field("breaker.poles"); poles != "" {
		out += ", " + poles + " poles"
	}
	if least := field("breaker.least"); least != "" {
		out += ", at least " + least
	}
	if most := field("breaker.most"); most != "" {
		out += ", at most " + most
	}
	return out + "."
}
