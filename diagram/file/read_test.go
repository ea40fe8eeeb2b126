package file_test

import (
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"

	"clampline/diagram/file"
)

// broken is a file that must be refused.
type broken struct {
	name, text string
	where      string // the place in the message
	want       string // what the message says
	line       int    // 0 for a file as a whole
	semantic   bool   // the schema cannot tell
}

const (
	onePart = `"parts": [{"id": "panel-1", "kind": "panel"}]`
	twoPart = `"parts": [{"id": "panel-1", "kind": "panel"}, {"id": "load-1", "kind": "load"}]`
)

// feederWith is a file with a feeder that has the members besides its id.
func feederWith(members string) string {
	return sheet(twoPart + `,
"feeders": [
  {"id": "feeder-1", ` + members + `}]`)
}

// supply is a file with a supply that has the members besides its id.
func supply(members string) string {
	return sheet(`"parts": [{"id": "s", "kind": "supply", ` + members + `}]`)
}

func feeder(members string) string {
	return feederWith(`"from": {"part": "panel-1"}, "to": {"part": "load-1"}, ` + members)
}

// ringAtEarth are the members that a surge case must have, besides its id.
const ringAtEarth = `"path": "line to earth", "wave": "ring", "voltage": 6000, "current": 500`

// surge is a file with a surge case that has the member instead of, or besides,
// those of ringAtEarth, or lacks it where the value is empty.
func surge(name, value string) string {
	var members []string
	for _, member := range strings.Split(ringAtEarth, ", ") {
		if !strings.HasPrefix(member, `"`+name+`"`) {
			members = append(members, member)
		}
	}
	if value != "" {
		members = append(members, `"`+name+`": `+value)
	}
	return sheet(twoPart + `,
"surges": [
  {"id": "surge-1", ` + strings.Join(members, ", ") + `}]`)
}

// notJSON are texts that break the grammar or its limits.
func notJSON() []broken {
	return []broken{
		{name: "empty", text: "", want: "the file is empty; choose another file"},
		{name: "blank", text: " \r\n\t", want: "the file is empty"},
		{name: "plain text", text: "Dear reader", want: "this is no Clampline sheet"},
		{name: "a list", text: "[1, 2]", want: "this is no Clampline sheet"},
		{name: "archive", text: "PK\x03\x04\x00\x00", want: "this is no Clampline sheet"},
		{name: "UTF-16, the other way", text: "\xFE\xFF\x00{\x00}", want: "UTF-16; save it as UTF-8", line: 1},
		{name: "UTF-16", text: "\xFF\xFE{\x00}\x00", want: "UTF-16; save it as UTF-8", line: 1},
		{name: "cut in an object", text: "{\n\"format\": \"clampline\",", want: "the file ends where a name in double quotes belongs; it was cut short", line: 2},
		{name: "cut after a colon", text: `{"format":`, want: "the file ends where a value belongs", line: 1},
		{name: "cut in a text", text: "{\"format\":\n\"clamp", want: "the file ends inside the text that begins on line 2, column 1; it was cut short", line: 2},
		{name: "cut in a list", text: `{"plans": [`, want: "the file ends where a value belongs", line: 1},
		{name: "cut in a word", text: `{"a": tru`, want: "'t' stands where a value belongs", line: 1},
		{name: "cut in an escape", text: `{"a": "\`, want: "the file ends where one of", line: 1},
		{name: "no colon", text: `{"a" 1}`, want: "'1' stands where a colon belongs", line: 1},
		{name: "no comma", text: "{\"a\": 1\n\"b\": 2}", where: "line 2, column 1", want: `'"' stands where a comma or a closing brace belongs`, line: 2},
		{name: "comma too many", text: "{\"a\": 1,\n}", want: "'}' stands where a name in double quotes belongs", line: 2},
		{name: "wrong bracket", text: `{"a": [1}`, want: "'}' stands where a comma or a closing bracket belongs", line: 1},
		{name: "comment", text: "{\n// mine\n}", want: "'/' stands where", line: 2},
		{name: "second value", text: "{}\n{}", where: "line 2, column 1", want: "'{' stands where the end of the file belongs", line: 2},
		{name: "single quotes", text: `{'a': 1}`, want: `'\'' stands where a name`, line: 1},
		{name: "leading zero", text: `{"a": 01}`, want: "'1' stands where", line: 1},
		{name: "no digit after the point", text: `{"a": 1.}`, want: "'}' stands where a digit belongs", line: 1},
		{name: "bare minus", text: `{"a": -}`, want: "'}' stands where a digit belongs", line: 1},
		{name: "NaN", text: `{"a": NaN}`, want: "no number that is not finite", line: 1},
		{name: "Infinity", text: `{"a": Infinity}`, want: "no number that is not finite", line: 1},
		{name: "minus Infinity", text: `{"a": -Infinity}`, want: "no number that is not finite", line: 1},
		{name: "line break in a text", text: "{\"a\": \"b\nc\"}", want: "a line break or control character stands inside a text", line: 1},
		{name: "unknown escape", text: `{"a": "\q"}`, want: "'q' stands where one of", line: 1},
		{name: "short unicode escape", text: `{"a": "\u12"}`, want: "a hexadecimal digit", line: 1},
		{name: "not UTF-8", text: "{\n\"µ\": \"\xff\"}", where: "line 2, column 7", want: "the text is not UTF-8; save it as UTF-8", line: 2},
		{name: "name twice", text: "{\"a\": 1,\n \"b\": {\"c\": 1,\n\"\\u0063\": 2}}", where: "line 3, column 1", want: `the name "c" stands twice in one object, first on line 2; remove one`, line: 3},
		{name: "nested too deep", text: "{\"a\":\n[\"µ\", " + strings.Repeat("[", 64), where: "line 2, column 69", want: "nested more than 64 deep", line: 2},
	}
}

// notOurs are objects that are no sheet, or one of another version.
func notOurs() []broken {
	return []broken{
		{name: "no format", text: `{}`, want: `this is no Clampline sheet: its member "format" is not "clampline"`, line: 1},
		{name: "other format", text: `{"format": "circuit", "version": 1, "plans": []}`, want: "this is no Clampline sheet", line: 1},
		{name: "no version", text: `{"format": "clampline", "plans": [{"id": "a"}]}`, where: "version", want: `missing or not a number; write "version": 1`, line: 1},
		{name: "version 0", text: "{\"format\": \"clampline\",\n\"version\": 0, \"plans\": [{\"id\": \"a\"}]}", where: "version", want: "0 is no version", line: 2},
		{name: "version 1.5", text: `{"format": "clampline", "version": 1.5, "plans": [{"id": "a"}]}`, where: "version", want: "1.5 is no version", line: 1},
		{name: "version as text", text: `{"format": "clampline", "version": "1", "plans": [{"id": "a"}]}`, where: "version", want: "missing or not a number", line: 1},
		{name: "newer", text: `{"format": "clampline", "version": 2, "plans": [{"id": "a"}], "parts": 7}`, where: "version", want: "written by a newer version of the program: format 2, and this program knows up to 1; update the program", line: 1},
		{name: "far newer", text: `{"format": "clampline", "version": 1e300, "plans": [{"id": "a"}]}`, where: "version", want: "newer version of the program", line: 1},
	}
}

// notAsDescribed are sheets whose members are of the wrong sort or out of
// range.
func notAsDescribed() []broken {
	return []broken{
		{name: "length with a unit", text: feeder("\n\"length\": \"8 m\""), where: "line 5, column 11, feeders[0].length (feeder-1)",
			want: `the text "8 m" stands where a number in metres belongs; write a plain number in metres, without quotes and without a unit`, line: 5},
		{name: "length null", text: feeder(`"length": null`), where: "feeders[0].length", want: "null stands where a number in metres belongs; remove the member", line: 4},
		{name: "length too large for a float", text: feeder(`"length": 1e999`), where: "feeders[0].length", want: "1e999 is too large for a number", line: 4},
		{name: "length negative", text: feeder(`"length": -3`), where: "feeders[0].length", want: "-3 is out of range; use 0 or a number from 1e-06", line: 4},
		{name: "length as a list", text: feeder(`"length": [8]`), where: "feeders[0].length", want: "a list stands where a number", line: 4},
		{name: "half a conductor", text: feeder(`"parallel": 1.5`), where: "feeders[0].parallel", want: "1.5 stands where a whole number belongs", line: 4},
		{name: "huge count", text: feeder(`"parallel": 1e12`), where: "feeders[0].parallel", want: "whole number", line: 4},
		{name: "number as a name", text: feeder(`"name": 7`), where: "feeders[0].name", want: "the number 7 stands where a text belongs; put it in double quotes", line: 4},
		{name: "word as a flag", text: feeder(`"switch": {"open": "yes"}`), where: "feeders[0].switch.open", want: `the text "yes" stands where true or false belongs`, line: 4},
		{name: "group as a text", text: feeder(`"switch": "breaker"`), where: "feeders[0].switch", want: "stands where an object belongs", line: 4},
		{name: "unknown word", text: feeder(`"raceway": "pipe"`), where: "feeders[0].raceway (feeder-1)", want: `"pipe" is not known; use one of "steel conduit"`, line: 4},
		{name: "unknown kind", text: sheet(`"parts": [{"id": "x", "kind": "reactor"}]`), where: "parts[0].kind (x)", want: `"reactor" is not known`, line: 2},
		{name: "no kind", text: sheet("\"parts\": [\n{\"id\": \"x\"}]"), where: "line 3, column 1, parts[0].kind", want: "the kind is missing", line: 3},
		{name: "no id", text: sheet("\"parts\": [\n{\"kind\": \"panel\"}]"), where: "line 3, column 1, parts[0]", want: "the id is missing", line: 3},
		{name: "bad id", text: sheet(`"parts": [{"id": "a b", "kind": "panel"}]`), where: "parts[0].id", want: `"a b" is no id`, line: 2},
		{name: "empty id", text: sheet(`"parts": [{"id": "", "kind": "panel"}]`), where: "parts[0].id", want: `"" is no id`, line: 2},
		{name: "list as an object", text: sheet(`"parts": {}`), where: "parts", want: "an object stands where a list belongs", line: 2},
		{name: "record as a text", text: sheet(`"parts": ["panel"]`), where: "parts[0]", want: "stands where an object belongs", line: 2},
		{name: "title as a number", text: sheet(`"info": {"title": 7}`), where: "info.title", want: "the number 7 stands where a text", line: 2},
		{name: "title too long", text: sheet(`"info": {"title": "` + strings.Repeat("x", 20001) + `"}`), where: "info.title", want: "the text is too long", line: 2},
		{name: "no plan", text: sheet(`"plans": []`), where: "plans", want: "there is no plan; keep at least one", line: 1},
		{name: "no plans", text: `{"format": "clampline", "version": 1}`, where: "plans", want: "there is no plan", line: 1},
		{name: "category without a number", text: sheet(`"parts": [{"id": "x", "kind": "panel", "withstand": {"kind": "category"}}]`), where: "parts[0].withstand.category", want: "the category is missing", line: 2},
		{name: "mode as a number", text: sheet(onePart + `, "protectors": [{"id": "s", "bus": "panel-1", "plan": "plan-1", "modes": {"L-N": 700}}]`), where: "protectors[0].modes.L-N (s)", want: "the number 700 stands where an object belongs", line: 2},
		{name: "mode out of range", text: sheet(onePart + `, "protectors": [{"id": "s", "bus": "panel-1", "plan": "plan-1", "modes": {"L-N": {"level": -1}}}]`), where: "protectors[0].modes.L-N.level (s)", want: "-1 is out of range", line: 2},
		{name: "place out of range", text: sheet(`"parts": [{"id": "x", "kind": "panel", "at": {"x": 1e7}}]`), where: "parts[0].at.x (x)", want: "out of range", line: 2},
		{name: "feeder with one end", text: feederWith(`"from": {"part": "panel-1"}`), where: "feeders[0].to (feeder-1)", want: "no part has this id", line: 4},
		{name: "feeder without its head", text: feederWith(`"to": {"part": "panel-1"}`), where: "feeders[0].from (feeder-1)", want: "no part has this id", line: 4},
		{name: "protector of no bus", text: sheet(onePart + `, "protectors": [{"id": "s", "plan": "plan-1"}]`), where: "protectors[0].bus (s)", want: "no part has this id", line: 2},
		{name: "protector without a plan", text: sheet(onePart + `, "protectors": [{"id": "s", "bus": "panel-1"}]`), where: "protectors[0].plan (s)", want: "no plan has this id", line: 2},
		{name: "plan without an id", text: sheet(`"plans": [{"name": "A"}]`), where: "plans[0]", want: "the id is missing", line: 1},
		{name: "unknown practice", text: sheet("\"info\": {\"codes\":\n{\"practice\": \"BS\"}}"), where: "line 3, column 14, info.codes.practice", want: `"BS" is not known; use one of "NEC", "IEC"`, line: 3},
		{name: "unknown edition", text: sheet(`"info": {"codes": {"nec": "2026"}}`), where: "info.codes.nec", want: `use one of "2023", "2020", "2017"`, line: 2},
		{name: "edition as a number", text: sheet(`"info": {"codes": {"nec": 2023}}`), where: "info.codes.nec", want: "the number 2023 stands where a text belongs; put it in double quotes", line: 2},
		{name: "tolerance too wide", text: sheet(`"info": {"codes": {"tolerance": 21}}`), where: "info.codes.tolerance", want: "21 is out of range; use a number from 0 to 20", line: 2},
		{name: "tolerance negative", text: sheet(`"info": {"codes": {"tolerance": -1}}`), where: "info.codes.tolerance", want: "-1 is out of range", line: 2},
		{name: "unknown occupancy", text: supply(`"exposure": {"occupancy": "barn"}`), where: "parts[0].exposure.occupancy (s)", want: `"barn" is not known; use one of "dwelling"`, line: 2},
		{name: "flashes with a unit", text: supply(`"exposure": {"flashDensity": "2 /km2"}`), where: "parts[0].exposure.flashDensity (s)", want: "write a plain number in flashes per square kilometre and year", line: 2},
		{name: "flashes beyond any storm", text: supply(`"exposure": {"flashDensity": 1001}`), where: "parts[0].exposure.flashDensity (s)", want: "1001 is out of range; use 0 or a number from 0.001 to 1000 per square kilometre and year", line: 2},
		{name: "line round the earth", text: supply(`"exposure": {"highCable": 4e7}`), where: "parts[0].exposure.highCable (s)", want: "4e+07 is out of range; use 0 or a number from 1e-06 to 100000 m", line: 2},
		{name: "declined as a word", text: supply(`"exposure": {"declined": "yes"}`), where: "parts[0].exposure.declined (s)", want: "write true or false, without quotes", line: 2},
		{name: "unknown use", text: supply(`"use": "bakery"`), where: "parts[0].use (s)", want: `"bakery" is not known; use one of "emergency system"`, line: 2},
		{name: "negative fault current to earth", text: supply(`"source": {"earthFaultCurrent": -1}`), where: "parts[0].source.earthFaultCurrent (s)", want: "-1 is out of range", line: 2},
		{name: "positions as a list", text: sheet(`"parts": [{"id": "x", "kind": "panel", "board": {"freePositions": [38, 40]}}]`), where: "parts[0].board.freePositions (x)", want: "a list stands where a text belongs", line: 2},
		{name: "breaker of negative least", text: sheet(onePart + `, "protectors": [{"id": "s", "bus": "panel-1", "plan": "plan-1", "breaker": {"least": -15}}]`), where: "protectors[0].breaker.least (s)", want: "-15 is out of range", line: 2},
		{name: "wave that is too slow", text: feeder(`"velocity": 200`), where: "feeders[0].velocity (feeder-1)", want: "200 is out of range; use 0 or a number from 10\u00a0000\u00a0000 to 299\u00a0800\u00a0000 m/s (10 to 299.8 m/µs)", line: 4},
		{name: "wave faster than light", text: feeder(`"velocity": 3e8`), where: "feeders[0].velocity (feeder-1)", want: "3e+08 is out of range", line: 4},
		{name: "surge impedance of a mere short", text: feeder(`"surgeImpedance": 0.5`), where: "feeders[0].surgeImpedance (feeder-1)", want: "0.5 is out of range; use 0 or a number from 1 to 10000 ohm", line: 4},
		{name: "surge impedance negative", text: feeder(`"surgeImpedance": -50`), where: "feeders[0].surgeImpedance", want: "-50 is out of range", line: 4},
		{name: "surge impedance with a unit", text: feeder(`"surgeImpedance": "50 ohm"`), where: "feeders[0].surgeImpedance", want: "write a plain number in ohms", line: 4},
		{name: "unknown terminals", text: sheet(`"parts": [{"id": "x", "kind": "load", "load": {"terminals": "shorted"}}]`), where: "parts[0].load.terminals (x)", want: `"shorted" is not known; use one of "open"`, line: 2},
		{name: "gap as a word", text: sheet(onePart + `, "protectors": [{"id": "s", "bus": "panel-1", "plan": "plan-1", "modes": {"L-N": {"switching": "gap"}}}]`), where: "protectors[0].modes.L-N.switching (s)", want: "where true or false belongs", line: 2},
		{name: "surges as an object", text: sheet(`"surges": {}`), where: "surges", want: "an object stands where a list belongs", line: 2},
		{name: "surge without an id", text: sheet(`"surges": [{` + ringAtEarth + `}]`), where: "surges[0]", want: "the id is missing", line: 2},
		{name: "surge without a path", text: surge("path", ""), where: "surges[0].path (surge-1)", want: "the path is missing; name the conductors", line: 4},
		{name: "surge of an unknown path", text: surge("path", `"line to sky"`), where: "surges[0].path (surge-1)", want: `"line to sky" is not known; use one of "lines to earth"`, line: 4},
		{name: "surge without a wave", text: surge("wave", ""), where: "surges[0].wave (surge-1)", want: "the wave is missing; name its shape", line: 4},
		{name: "surge of an unknown wave", text: surge("wave", `"square"`), where: "surges[0].wave (surge-1)", want: `"square" is not known; use one of "combination"`, line: 4},
		{name: "surge without a voltage", text: surge("voltage", ""), where: "surges[0].voltage (surge-1)", want: "0 is out of range; use a number from 0.001 to 1e+06 V", line: 4},
		{name: "surge of a negative voltage", text: surge("voltage", "-6000"), where: "surges[0].voltage (surge-1)", want: "-6000 is out of range", line: 4},
		{name: "surge of too high a voltage", text: surge("voltage", "1e7"), where: "surges[0].voltage (surge-1)", want: "1e+07 is out of range", line: 4},
		{name: "surge of no finite voltage", text: surge("voltage", "1e999"), where: "surges[0].voltage (surge-1)", want: "1e999 is too large for a number", line: 4},
		{name: "surge without a current", text: surge("current", ""), where: "surges[0].current (surge-1)", want: "0 is out of range; use a number from 1e-06 to 1e+06 A", line: 4},
		{name: "surge of too much current", text: surge("current", "2e6"), where: "surges[0].current (surge-1)", want: "2e+06 is out of range", line: 4},
		{name: "surge of a huge order", text: surge("order", "20000"), where: "surges[0].order (surge-1)", want: "20000 is out of range", line: 4},
		{name: "surge at what is no id", text: surge("part", `"a b"`), where: "surges[0].part (surge-1)", want: `arrives at "a b", and no part has this id`, line: 4},
		{name: "end without a part", text: feederWith(`"from": {"part": "panel-1"}, "to": {}`), where: "feeders[0].to (feeder-1)", want: "no part has this id", line: 4},
	}
}

// notConsistent are sheets whose records do not fit each other.
func notConsistent() []broken {
	return []broken{
		{name: "feeder to nowhere", text: feederWith("\"from\": {\"part\": \"panel-1\"},\n\"to\": {\"part\": \"panel-9\"}"), where: "line 5, column 7, feeders[0].to (feeder-1)", want: `it leads to "panel-9", and no part has this id; connect it to a part`, line: 5, semantic: true},
		{name: "feeder to itself", text: feederWith(`"from": {"part": "load-1"}, "to": {"part": "load-1"}`), where: "feeders[0].to", want: "both ends are at load-1", line: 4, semantic: true},
		{name: "no such terminal", text: feederWith(`"from": {"part": "load-1", "port": "primary"}, "to": {"part": "panel-1"}`), where: "feeders[0].from", want: `no terminal "primary"`, line: 4, semantic: true},
		{name: "protector of no plan", text: sheet(onePart + `, "protectors": [{"id": "s", "bus": "panel-1", "plan": "plan-8"}]`), where: "protectors[0].plan (s)", want: "no plan has this id", line: 2, semantic: true},
		{name: "protector on a note", text: sheet(`"parts": [{"id": "n", "kind": "note"}], "protectors": [{"id": "s", "bus": "n", "plan": "plan-1"}]`), where: "protectors[0].bus (s)", want: "a note", line: 2, semantic: true},
		{name: "surge at no part", text: surge("part", `"panel-9"`), where: "surges[0].part (surge-1)", want: `it arrives at "panel-9", and no part has this id; name a part with terminals, or none for the supply in use`, line: 4, semantic: true},
		{name: "surge at a note", text: sheet(`"parts": [{"id": "n", "kind": "note"}], "surges": [{"id": "s", "part": "n", ` + ringAtEarth + `}]`), where: "surges[0].part (s)", want: "it arrives at n, a note", line: 2, semantic: true},
		{name: "surge with the id of a part", text: sheet(onePart + `, "surges": [{"id": "panel-1", ` + ringAtEarth + `}]`), where: "surges[0].id (panel-1)", want: "parts[0] has it too", line: 2, semantic: true},
		{name: "id twice", text: sheet("\"parts\": [{\"id\": \"a\", \"kind\": \"panel\"},\n{\"id\": \"a\", \"kind\": \"load\"}]"), where: "line 3, column 8, parts[1].id (a)", want: `two records bear the id "a": parts[0] has it too; rename one`, line: 3, semantic: true},
		{name: "id of another sort", text: sheet(`"parts": [{"id": "plan-1", "kind": "panel"}]`), where: "parts[0].id (plan-1)", want: "plans[0] has it too", line: 2, semantic: true},
	}
}

func allBroken() []broken {
	var out []broken
	for _, some := range [][]broken{notJSON(), notOurs(), notAsDescribed(), notConsistent()} {
		out = append(out, some...)
	}
	return out
}

func TestReadRefusesAndSaysWhy(t *testing.T) {
	for _, test := range allBroken() {
		t.Run(test.name, func(t *testing.T) {
			doc, err := file.Read(strings.NewReader(test.text))
			var one *file.Error
			if !errors.As(err, &one) || doc != nil {
				t.Fatalf("got document %v and error %v, want an *Error", doc, err)
			}
			if message := err.Error(); !strings.Contains(message, test.want) || !strings.Contains(message, test.where) {
				t.Errorf("got %s\nwant %q and %q in it", message, test.where, test.want)
			}
			if one.Line != test.line || (one.Column > 0) != (one.Line > 0) {
				t.Errorf("got line %d, column %d, want line %d", one.Line, one.Column, test.line)
			}
			if one.Remedy == "" {
				t.Errorf("%v: nothing says how to mend it", err)
			}
			if strings.Count(err.Error(), "\n") != 0 {
				t.Errorf("got more than one problem:\n%v", err)
			}
		})
	}
}

func TestReadTolerates(t *testing.T) {
	plain := feeder(`"length": 8`)
	want := write(t, read(t, plain))
	tests := []struct{ name, text string }{
		{"a byte order mark", "\uFEFF" + plain},
		{"line ends of another system", strings.ReplaceAll(plain, "\n", "\r\n")},
		{"other ways to write a number", strings.Replace(plain, `"length": 8`, `"length": 80.0E-1`, 1)},
		{"escapes", strings.ReplaceAll(plain, `"feeder-1"`, `"\u0066eeder-1"`)},
		{"empty values", feeder(`"length": 8, "material": "", "name": "", "area": -0.0, "parallel": 0, "switch": {}`)},
		{"another schema address", strings.Replace(plain, "{", `{"$schema": "local.json", `, 1)},
		{"spaces round it", "\n " + plain + "\n\n"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := write(t, read(t, test.text)); got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

func TestReadTakesNoMinusNought(t *testing.T) {
	doc := read(t, feeder(`"length": -0.0`))
	if f, _ := doc.Feeder("feeder-1"); f.Length != 0 || math.Signbit(f.Length) {
		t.Errorf("got length %g, want 0", f.Length)
	}
}

func TestBracketsInTextsDoNotNest(t *testing.T) {
	note := strings.Repeat(`[\"{`, 100) + `\\`
	doc := read(t, sheet(`"info": {"note": "`+note+`"}`))
	if got, want := doc.Info().Note, strings.Repeat(`["{`, 100)+`\`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestReadTakesLoopsAndUnfedParts(t *testing.T) {
	doc := read(t, sheet(`"parts": [{"id": "a", "kind": "panel"}, {"id": "b", "kind": "panel"}, {"id": "c", "kind": "load"}],
		"feeders": [{"id": "f", "from": {"part": "a"}, "to": {"part": "b"}}, {"id": "g", "from": {"part": "b"}, "to": {"part": "a"}}]`))
	if parts, feeders, _ := doc.Count(); parts != 3 || feeders != 2 {
		t.Errorf("got %d parts and %d feeders, want 3 and 2", parts, feeders)
	}
}

func TestReadListsUpToTwentyProblems(t *testing.T) {
	var items []string
	for i := range 33 {
		items = append(items, fmt.Sprintf("{\"id\": \"p%d\", \"kind\": \"panel\", \"turn\": \"x\"}", i))
	}
	_, err := file.Read(strings.NewReader(sheet("\"parts\": [\n" + strings.Join(items, ",\n") + "]")))
	var all file.Errors
	if !errors.As(err, &all) {
		t.Fatalf("got %v, want Errors", err)
	}
	if len(all) != 21 || all[19].Line != 22 || all[20].What != "there are 13 more problems" {
		t.Errorf("got %d errors, want 20 and one that counts 13 more:\n%v", len(all), err)
	}
}

func TestProblemsStandInTheOrderOfTheFile(t *testing.T) {
	_, err := file.Read(strings.NewReader(`{"format": "clampline", "version": 1,
"feeders": [{"id": "f", "length": "8 m"}],
"parts": [{"id": "p", "turn": "x"}],
"plans": [{"id": "a", "order": "first"}]}`))
	var all file.Errors
	if !errors.As(err, &all) || len(all) != 3 || all[0].ID != "f" || all[1].ID != "p" || all[2].ID != "a" {
		t.Errorf("got %v, want the problems of f, p and a", err)
	}
}

// endless gives the same byte again and again, and counts what was asked for.
type endless struct {
	first string
	fill  byte
	given int
}

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = e.fill
	}
	if e.given < len(e.first) {
		copy(p, e.first[e.given:])
	}
	e.given += len(p)
	return len(p), nil
}

func TestReadStopsEarly(t *testing.T) {
	const mib = 1 << 20
	tests := []struct {
		name, first string
		fill        byte
		want        string
		most        int // bytes asked for
	}{
		{"a hundred million brackets", "{\"a\":", '[', "nested more than 64 deep", mib},
		{"no end", "{\"a\":\"", 'x', "larger than 32 MiB", 33 * mib},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			from := &endless{first: test.first, fill: test.fill}
			_, err := file.Read(io.LimitReader(from, 100_000_000))
			runtime.ReadMemStats(&after)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got error %v, want one with %q", err, test.want)
			}
			if from.given > test.most {
				t.Errorf("read %d bytes, want at most %d", from.given, test.most)
			}
			// Growing a slice to n bytes by a quarter each time costs about 5n in all.
			if used := after.TotalAlloc - before.TotalAlloc; used > 6*uint64(test.most) {
				t.Errorf("took %d bytes of memory for %d of text", used, from.given)
			}
		})
	}
}

func TestReadStopsAtTooManyValues(t *testing.T) {
	text := sheet(`"x": [` + strings.Repeat("1,", 6<<20) + "1]")
	_, err := file.Read(strings.NewReader(text))
	if err == nil || !strings.Contains(err.Error(), "more than 4194304 values") {
		t.Errorf("got error %v, want one that there are too many values", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

func TestReadHandsOnErrorsOfTheReader(t *testing.T) {
	want := errors.New("cable pulled")
	if _, err := file.Read(failing{want}); !errors.Is(err, want) {
		t.Errorf("got %v, want %v", err, want)
	}
}
