package extract

import (
	"clampline/analysis"
	"clampline/diagram"
)

// assume tells, once, what was taken so.
func (x *extractor) assume(record diagram.ID, text, source string) {
	a := analysis.Assumption{Record: record, Text: text, Source: source}
	if !x.told[a] {
		x.told[a] = true
		x.out.Assumptions = append(x.out.Assumptions, a)
	}
}
