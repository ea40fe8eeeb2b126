package diagram_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"clampline/diagram"
)

// alteration changes some of what a valid document is about to hold.
type alteration func(info *diagram.Info, supply, panel *diagram.Part, protector *diagram.Protector)

// edit lets alter change a supply, a panel and a protector, and returns what a
// document says of them.
func edit(alter alteration) error {
	info := diagram.Info{}
	supply := diagram.Part{ID: "supply-1", Kind: diagram.Supply}
	panel := diagram.Part{ID: "panel-1", Kind: diagram.Panel}
	protector := diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: panel.ID}
	_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
		alter(&info, &supply, &panel, &protector)
		tx.SetInfo(info)
		tx.SetPart(supply)
		tx.SetPart(panel)
		tx.SetProtector(protector)
		return nil
	})
	return err
}

// changed is what one field holds, and what is said of it: nothing where it is
// taken.
type changed struct {
	name  string
	want  string
	alter alteration
}

func checkChanged(t *testing.T, tests []changed) {
	t.Helper()
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := edit(test.alter)
			var invalid *diagram.InvalidError
			switch {
			case test.want == "" && err != nil:
				t.Errorf("got %v, want that it is taken", err)
			case test.want != "" && !errors.As(err, &invalid):
				t.Errorf("got %v, want an *InvalidError with %q", err, test.want)
			case test.want != "" && !strings.Contains(err.Error(), test.want):
				t.Errorf("got %v, want %q in it", err, test.want)
			}
		})
	}
}

func TestCodesAreChecked(t *testing.T) {
	codes := func(f func(*diagram.Codes)) alteration {
		return func(info *diagram.Info, _, _ *diagram.Part, _ *diagram.Protector) { f(&info.Codes) }
	}
	checkChanged(t, []changed{
		{"all of them", "", codes(func(c *diagram.Codes) {
			*c = diagram.Codes{Practice: diagram.IECPractice, NEC: diagram.NEC2017, Uc: diagram.UcOlder, Risk: diagram.ByDefault, Fault: diagram.PointToPoint, Tolerance: 20}
		})},
		{"unknown practice", `codes.practice: "BS" is not known; use one of "NEC", "IEC"`, codes(func(c *diagram.Codes) { c.Practice = "BS" })},
		{"unknown edition", `codes.nec: "2014" is not known`, codes(func(c *diagram.Codes) { c.NEC = "2014" })},
		{"unknown table", `codes.uc: "middle" is not known`, codes(func(c *diagram.Codes) { c.Uc = "middle" })},
		{"unknown risk", `codes.risk: "never" is not known`, codes(func(c *diagram.Codes) { c.Risk = "never" })},
		{"unknown sum", `codes.fault: "by ear" is not known`, codes(func(c *diagram.Codes) { c.Fault = "by ear" })},
		{"tolerance too wide", "codes.tolerance: 20.5 is out of range; use a number from 0 to 20", codes(func(c *diagram.Codes) { c.Tolerance = 20.5 })},
		{"tolerance no number", "codes.tolerance: NaN is out of range", codes(func(c *diagram.Codes) { c.Tolerance = math.NaN() })},
	})
}

func TestExposureIsChecked(t *testing.T) {
	exposure := func(f func(*diagram.Exposure)) alteration {
		return func(_ *diagram.Info, supply, _ *diagram.Part, _ *diagram.Protector) { f(&supply.Exposure) }
	}
	checkChanged(t, []changed{
		{"at its limits", "", exposure(func(e *diagram.Exposure) {
			*e = diagram.Exposure{FlashDensity: 1000, LowOverhead: 1e5, LowCable: 1e5, HighOverhead: 1e5, HighCable: 1e5}
		})},
		{"unknown occupancy", `supply-1, exposure.occupancy: "barn" is not known`, exposure(func(e *diagram.Exposure) { e.Occupancy = "barn" })},
		{"unknown surges", `exposure.surges: "some" is not known`, exposure(func(e *diagram.Exposure) { e.Surges = "some" })},
		{"unknown lightning system", `exposure.lightning: "level V" is not known`, exposure(func(e *diagram.Exposure) { e.Lightning = "level V" })},
		{"unknown surroundings", `exposure.surroundings: "alpine" is not known`, exposure(func(e *diagram.Exposure) { e.Surroundings = "alpine" })},
		{"too many flashes", "exposure.flashDensity: 1001 is out of range", exposure(func(e *diagram.Exposure) { e.FlashDensity = 1001 })},
		{"overhead line too long", "exposure.lowOverhead: 1.1e+06 is out of range", exposure(func(e *diagram.Exposure) { e.LowOverhead = 1.1e6 })},
		{"cable too long", "exposure.lowCable: 1.1e+06 is out of range", exposure(func(e *diagram.Exposure) { e.LowCable = 1.1e6 })},
		{"high-voltage line negative", "exposure.highOverhead: -1 is out of range", exposure(func(e *diagram.Exposure) { e.HighOverhead = -1 })},
		{"high-voltage cable negative", "exposure.highCable: -1 is out of range", exposure(func(e *diagram.Exposure) { e.HighCable = -1 })},
	})
}

func TestBoardUseAndProtectorAreChecked(t *testing.T) {
	long := strings.Repeat("x", 20_001)
	checkChanged(t, []changed{
		{"unknown use", `panel-1, use: "bakery" is not known`, func(_ *diagram.Info, _, p *diagram.Part, _ *diagram.Protector) { p.Use = "bakery" }},
		{"every use", "", func(_ *diagram.Info, _, p *diagram.Part, _ *diagram.Protector) { p.Use = diagram.WindTurbineFeedUse }},
		{"negative fault current of a board", "board.faultCurrent: -1 is out of range", func(_ *diagram.Info, _, p *diagram.Part, _ *diagram.Protector) { p.Board.FaultCurrent = -1 }},
		{"positions too long", "board.freePositions: the text is too long", func(_ *diagram.Info, _, p *diagram.Part, _ *diagram.Protector) { p.Board.FreePositions = long }},
		{"place of a short lead not UTF-8", "board.shortLead: the text is not UTF-8", func(_ *diagram.Info, _, p *diagram.Part, _ *diagram.Protector) { p.Board.ShortLead = "\xff" }},
		{"fault current to earth", "source.earthFaultCurrent: NaN is out of range", func(_ *diagram.Info, s, _ *diagram.Part, _ *diagram.Protector) {
			s.Source.EarthFaultCurrent = math.NaN()
		}},
		{"least breaker", "protector-1, breaker.least: -1 is out of range", func(_ *diagram.Info, _, _ *diagram.Part, p *diagram.Protector) { p.Breaker.Least = -1 }},
		{"most breaker", "protector-1, breaker.most: 1e+13 is out of range", func(_ *diagram.Info, _, _ *diagram.Part, p *diagram.Protector) { p.Breaker.Most = 1e13 }},
	})
}
