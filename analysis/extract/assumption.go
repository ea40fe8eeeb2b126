package extract

import "clampline/diagram"

// Assumption is something that the sheet does not say and that was taken so.
type Assumption struct {
	Record diagram.ID
	Text   string // what was taken, in one sentence without a full stop
	Source string // where the figure comes from
}

func (x *extractor) assume(record diagram.ID, text, source string) {
	a := Assumption{record, text, source}
	if !x.told[a] {
		x.told[a] = true
		x.out.Assumptions = append(x.out.Assumptions, a)
	}
}
