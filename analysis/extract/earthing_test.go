package extract_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// ties lists what joins the conductors of the building to earth, insulation and
// the generator of the surge aside: "main N bond", "supply N 20 ohm".
func ties(c *extract.Circuit) []string {
	out := []string{}
	for _, inductor := range c.Network.Inductors {
		if inductor.Branches[0].B == circuit.Earth {
			out = append(out, c.Network.Names[inductor.Branches[0].A]+" bond")
		}
	}
	for _, r := range c.Network.Resistors {
		if r.B == circuit.Earth && r.Ohms < 1e6 && !strings.Contains(r.Name, "surge") {
			out = append(out, fmt.Sprintf("%s %.3g ohm", c.Network.Names[r.A], r.Ohms))
		}
	}
	slices.Sort(out)
	return out
}

// Where each earthing joins what to earth. TN-C has one conductor for neutral and
// earth throughout, TN-C-S up to the service, TN-S none behind the source; in TT
// the electrodes lie between, in IT nothing (IEC 60364-1:2005, 312.2, from memory).
// A solidly grounded system is bonded at the service (NEC 250.24), a corner-grounded
// one by a line, which is B here; one grounded through an impedance lets 5 A flow.
func TestTiesOfEveryEarthing(t *testing.T) {
	wye := func(earthing diagram.Earthing) diagram.System {
		return diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: earthing, Frequency: 50}
	}
	delta := diagram.System{Wiring: diagram.Delta, Voltage: 480, Frequency: 60}
	corner, bare := delta, delta
	corner.Earthing, bare.Earthing = diagram.Corner, diagram.Unearthed
	for _, row := range []struct {
		system                   diagram.System
		bondedMain, bondedBranch bool
		service                  bool
		want                     []string
	}{
		{wye(diagram.Solid), false, false, true, []string{"main N bond"}},
		{wye(diagram.Solid), false, false, false, []string{"supply N bond"}},
		{wye(diagram.Solid), true, false, true, []string{"main N bond"}},
		{wye(diagram.Solid), false, true, true, []string{"branch N bond"}}, // the sheet says where
		{wye(diagram.Solid), true, true, true, []string{"branch N bond", "main N bond"}},
		{wye(diagram.TNC), false, false, true, []string{"branch N bond", "main N bond"}},
		{wye(diagram.TNCS), false, false, true, []string{"main N bond"}},
		{wye(diagram.TNCS), false, false, false, []string{"supply N bond"}},
		{wye(diagram.TNS), false, false, true, []string{"supply N bond"}},
		{wye(diagram.TNS), true, false, true, []string{"main N bond"}},
		{wye(diagram.TT), false, false, true, []string{"supply N 20 ohm"}},
		{wye(diagram.IT), false, false, true, []string{}},
		{wye(diagram.Unearthed), false, false, true, []string{}},
		{wye(""), false, false, true, []string{}},
		{wye(diagram.Impedance), false, false, true, []string{"supply N 46 ohm"}}, // 230 V over 5 A
		{corner, false, false, true, []string{"supply B bond"}},
		{bare, false, false, true, []string{}},
		{bare, true, false, true, []string{}}, // there is no neutral to bond
	} {
		main, branch := panel("main"), panel("branch")
		main.Board = diagram.BoardData{Service: row.service, Bonded: row.bondedMain}
		branch.Board.Bonded = row.bondedBranch
		c := network(t, sheet(t, []diagram.Part{supply(row.system), main, branch}, feed("supply", "main", 10), feed("main", "branch", 20)), usual)
		if diff := cmp.Diff(row.want, ties(c)); diff != "" {
			t.Errorf("%s, bonded %v %v, service %v: -want +got\n%s", row.system, row.bondedMain, row.bondedBranch, row.service, diff)
		}
		unknown := row.system.Earthing == ""
		if told(c, "supply", "not known") != unknown {
			t.Errorf("%s: its earthing told as not known: %v", row.system, !unknown)
		}
	}
}

// The neutral of a generator behind a transfer switch that leaves it through is
// held by the bond of the service, and is not bonded again; one that is switched is
// a separately derived system with a bond of its own (NEC 250.30, from memory).
func TestTiesBehindATransferSwitch(t *testing.T) {
	for _, row := range []struct {
		switches bool
		surge    diagram.ID
		want     []string
	}{
		{false, "supply", []string{"main N bond"}},
		{false, "gen", []string{"main N bond"}},
		{true, "supply", []string{"main N bond"}},
		{true, "gen", []string{"gen N bond"}},
	} {
		main := panel("main")
		main.Board = diagram.BoardData{Service: true, Bonded: true}
		doc := sheet(t, []diagram.Part{
			supply(wye480), {ID: "gen", Kind: diagram.Generator, System: wye480}, main, panel("lights"),
			{ID: "ats", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{SwitchesNeutral: row.switches}},
		}, feed("supply", "main", 5), feed("main", "ats:normal", 5), feed("gen", "ats:emergency", 5), feed("ats:load", "lights", 5))
		surge := usual
		surge.Part = row.surge
		if diff := cmp.Diff(row.want, ties(network(t, doc, surge))); diff != "" {
			t.Errorf("neutral switched %v, surge at %s: -want +got\n%s", row.switches, row.surge, diff)
		}
	}
}

// A source without a neutral has none to be joined to that of the others.
func TestTransferFromADelta(t *testing.T) {
	doc := sheet(t, []diagram.Part{
		supply(wye480), {ID: "gen", Kind: diagram.Generator, System: delta480}, panel("main"), {ID: "ats", Kind: diagram.TransferSwitch},
	}, feed("supply", "ats:normal", 5), feed("gen", "ats:emergency", 5), feed("ats:load", "main", 5))
	if diff := cmp.Diff([]string{"supply N bond"}, ties(network(t, doc, usual))); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// A bond is half a metre of 25 mm² of copper, r = 2.82 mm: 0.2 l (ln(2 l/r) - 1) µH
// of a straight wire without the field inside it (Rosa, Bulletin of the Bureau of
// Standards 4, 1908), and rho l / (pi delta (d - delta)) with a skin of 0.418 mm
// (textbook skin effect at 25 kHz).
func TestBond(t *testing.T) {
	c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, feed("supply", "main", 10)), usual)
	for _, inductor := range c.Network.Inductors {
		if !strings.Contains(inductor.Name, "bond") {
			continue
		}
		henries := 0.2e-6 * 0.5 * (math.Log(2*0.5/2.82e-3) - 1)
		ohms := 1.72e-8 * 0.5 / (math.Pi * 0.418e-3 * (5.64e-3 - 0.418e-3))
		// 2 %: what handbooks differ by in the resistivity of copper
		if math.Abs(inductor.Henries[0]/henries-1) > 0.02 || math.Abs(inductor.Ohms[0]/ohms-1) > 0.02 {
			t.Errorf("got %.4g H and %.4g ohm, want %.4g and %.4g", inductor.Henries[0], inductor.Ohms[0], henries, ohms)
		}
		return
	}
	t.Error("there is no bond")
}

// Behind a transformer the bond stands where a board has it, or else at the
// secondary; that of the service does not hold it.
func TestTiesBehindATransformer(t *testing.T) {
	for _, bonded := range []bool{false, true} {
		main, far := panel("main"), panel("far")
		main.Board = diagram.BoardData{Service: true, Bonded: true}
		far.Board.Bonded = bonded
		doc := sheet(t, []diagram.Part{supply(wye480), main, transformer(wye480, wye208, diagram.TransformerData{Power: 75e3, Impedance: 4}), far},
			feed("supply", "main", 5), feed("main", "trafo:primary", 10), feed("trafo:secondary", "far", 10))
		want := []string{"main N bond", "trafo secondary N bond"}
		if bonded {
			want = []string{"far N bond", "main N bond"}
		}
		if diff := cmp.Diff(want, ties(network(t, doc, usual))); diff != "" {
			t.Errorf("bonded at the panel %v: -want +got\n%s", bonded, diff)
		}
	}
}
