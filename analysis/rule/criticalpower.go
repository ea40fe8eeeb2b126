package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// level is one voltage level of a critical operations power system: what lies
// between a source or transformer and the next one below.
type level struct {
	at        *analysis.Node // where it begins: the board nearest to the source, or else the first part
	protected bool
}

// criticalLevels returns the voltage levels through which parts for critical
// power are fed, by the part that reports each of them: the first one that it
// feeds. Only what takes a protector makes a level.
func (s *sheet) criticalLevels() map[diagram.ID][]*level {
	out := map[diagram.ID][]*level{}
	byZone, seen := map[diagram.End]*level{}, map[*analysis.Node]bool{}
	for part := range s.Document.Parts() {
		if part.Use != diagram.CriticalPowerUse {
			continue
		}
		for node := s.Topology.Node(part); node != nil && !seen[node]; node = node.Up {
			seen[node] = true
			host, _ := s.Document.Part(node.At.Part)
			if !host.Kind.TakesProtector() || node.System.Voltage > lowVoltage {
				continue
			}
			at := byZone[node.Zone]
			if at == nil {
				at = &level{at: node}
				byZone[node.Zone] = at
				out[part.ID] = append(out[part.ID], at)
			}
			at.add(node, host, slices.ContainsFunc(s.counting(host.ID), anyProtector))
		}
	}
	return out
}

// add counts one more part of the level.
func (l *level) add(node *analysis.Node, host diagram.Part, protected bool) {
	l.protected = l.protected || protected
	if host.Kind.IsBoard() && node.Depth <= l.at.Depth {
		l.at = node
	}
}
