package rule

import (
	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
)

// shorter is the change that shortens the leads that are longer than can be told
// without a word: beyond those that a VPR includes, or beyond half of what live and
// earth side may have together.
func (s *site) shorter() analysis.Mend {
	most := lead.Shortest(&s.protector, s.iec)
	return s.altered("shorten the leads of … to "+s.leadText(most), func(p *diagram.Protector) { lead.Shorten(p, most) })
}
