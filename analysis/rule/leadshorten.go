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
	most := lead.InVPR
	if s.iec || s.protector.Rating == diagram.Up {
		most = leadPreferred / 2
	}
	return s.altered("shorten the leads of … to "+s.leadText(most), func(p *diagram.Protector) { lead.Shorten(p, most) })
}
