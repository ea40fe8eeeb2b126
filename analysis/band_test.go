package analysis

import (
	"strings"
	"testing"

	"clampline/diagram"
)

func TestSignificant(t *testing.T) {
	for _, row := range []struct {
		v      float64
		digits int
		want   float64
	}{{1183, 3, 1180}, {1185.1, 3, 1190}, {999.6, 3, 1000}, {0.0456, 1, 0.05}, {-1183, 2, -1200}, {0, 3, 0}, {7.48, 2, 7.5}} {
		if got := Significant(row.v, row.digits); got < row.want-1e-12 || got > row.want+1e-12 {
			t.Errorf("%g to %d digits: got %g, want %g", row.v, row.digits, got, row.want)
		}
	}
}

// The share is never told as all or none where that is not so.
func TestBandPercent(t *testing.T) {
	for holds, want := range map[float64]int{0: 0, 0.001: 1, 0.125: 13, 0.5: 50, 0.994: 99, 0.999: 99, 1: 100} {
		if got := (Band{Holds: holds}).Percent(); got != want {
			t.Errorf("%g: got %d %%, want %d", holds, got, want)
		}
	}
}

// The steps say the voltages, the share and each range with its source; without a
// withstand there is no share.
func TestBandWorking(t *testing.T) {
	doc := diagram.New()
	band := Band{Low: 1183, High: 1417, Withstand: 1500, Holds: 0.93, Off: 0.0049, Runs: 200, Ranges: []BandRange{{Record: "spd", What: "lead length", Volts: 183.4, Source: "a book"}}}
	var lines []string
	for _, s := range band.Working(doc) {
		text := s.Text
		if s.Unit != "" {
			text = FigureIn(s.Result, s.Unit)
		}
		lines = append(lines, s.Label+": "+strings.ReplaceAll(text, "\u00a0", " ")+" ("+s.Source+")")
	}
	want := "how sure: 5 % of the runs lie below: 1 180 V (200 runs, with the mains at any moment of its turn)\n" +
		"95 % of the runs lie below: 1 420 V (of these)\n" +
		"the bus holds: in 93 % of the runs (voltage up to its withstand, Held or Tight; known within 1.0 % in 19 of 20 cases)\n" +
		"lead length of spd, alone: moves it by ±180 V (a book)"
	if got := strings.Join(lines, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	band.Off = 0
	if got := band.Working(doc)[2].Source; strings.Contains(got, "known") {
		t.Errorf("where all runs agree it is said: %s", got)
	}
	band.Withstand = 0
	if got := len(band.Working(doc)); got != 3 {
		t.Errorf("without a withstand: got %d steps, want 3", got)
	}
}
