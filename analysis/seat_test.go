package analysis_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

type modes = [diagram.ModeCount]diagram.ModeRating

func rated(level, mcov float64) diagram.ModeRating {
	return diagram.ModeRating{Connected: true, Level: level, MCOV: mcov}
}

func TestSeated(t *testing.T) {
	line, pair := system(diagram.Single, 230, true, diagram.TNS), system(diagram.Single, 230, false, diagram.IT)
	gap := diagram.ModeRating{Connected: true, Level: 1500, MCOV: 255, Switching: true}
	tests := []struct {
		name      string
		made, bus diagram.System
		has, want modes
	}{
		{"2+0 on two lines of IT", line, pair, modes{{}, rated(1250, 275), rated(1500, 255)}, modes{{}, rated(1500, 255)}},
		{"1+1 on two lines of IT: neither line leads to earth alone", line, pair, modes{rated(1500, 275), {}, gap}, modes{{}, {}, {}, rated(1500, 275)}},
		{"one line alone leads to earth", line, pair, modes{{}, rated(1250, 275)}, modes{}},
		{"the neutral alone leads to earth", line, pair, modes{{}, {}, rated(1500, 255)}, modes{}},
		{"a level that is not stated", line, pair, modes{{}, rated(1250, 0), rated(0, 275)}, modes{{}, rated(0, 0)}},
		{"made for two lines, on a line and neutral", pair, line, modes{{}, rated(1500, 275)}, modes{{}, rated(1500, 275), rated(1500, 275)}},
		{"of a split phase, on two lines of its voltage", split240, system(diagram.Single, 240, false, diagram.Solid), modes{rated(700, 150), rated(700, 150), rated(700, 150), rated(1200, 300)},
			modes{rated(700, 150), rated(700, 150), rated(700, 150), rated(1200, 300)}},
		{"on its own system", line, line, modes{rated(1500, 275)}, modes{rated(1500, 275)}},
		{"of another voltage", line, system(diagram.TwoOfWye, 400, false, diagram.TNS), modes{rated(1500, 275)}, modes{rated(1500, 275)}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := analysis.Seated(diagram.Protector{System: test.made, Modes: test.has}, test.bus)
			if diff := cmp.Diff(test.want, p.Modes); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
			if p.System.Lines() != test.bus.Lines() && p.System.Voltage == test.bus.Voltage {
				t.Errorf("got one for %s on %s", p.System, test.bus)
			}
		})
	}
}

// Of two leads the longer stands for both lines.
func TestSeatedTakesTheLongerLead(t *testing.T) {
	p := diagram.Protector{System: system(diagram.Single, 230, true, diagram.TNS)}
	p.Leads.Phase.Length, p.Leads.Neutral.Length = 0.2, 0.7
	if got := analysis.Seated(p, system(diagram.Single, 230, false, diagram.IT)).Leads.Phase.Length; got != 0.7 {
		t.Errorf("got %g m, want 0.7", got)
	}
}
