package extract

import (
	"clampline/analysis"
	"clampline/diagram"
)

// assume tells, once, what was taken so.
func (x *extractor) assume(record diagram.ID, text, source string) {
	x.assumed(analysis.Assumption{Record: record, Text: text, Source: source})
}

func (x *extractor) assumed(a analysis.Assumption) {
	if !x.told[a] {
		x.told[a] = true
		x.out.Assumptions = append(x.out.Assumptions, a)
	}
}
