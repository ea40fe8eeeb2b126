package survey

import (
	"bytes"
	"context"
	"encoding/json"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/unit"
)

func phoneOf(t testing.TB, p Phone) string {
	t.Helper()
	var out bytes.Buffer
	if err := WritePhone(&out, p); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// A page asks nothing of any network: all it names stands in it, and its policy forbids
// the rest.
func TestPhoneNeedsNothingElse(t *testing.T) {
	for _, work := range []bool{false, true} {
		page := phoneOf(t, Phone{Sheets: sheetsOf(t, filled(t)), File: "quay.clampline", Work: work})
		if found := regexp.MustCompile(`https?://|<link|<img|<iframe|@import|[: ]url\(|\ssrc=`).FindString(page); found != "" {
			t.Errorf("work %t: the page has %q", work, found)
		}
		for _, want := range []string{"default-src 'none'", `name="viewport"`, "licensed engineer", `inputMode = "decimal"`} {
			if !strings.Contains(page, want) {
				t.Errorf("work %t: the page lacks %q", work, want)
			}
		}
	}
}

// Names are text wherever they stand, and no name ends the script.
func TestPhoneNamesAreText(t *testing.T) {
	const evil = `</script><script>owned()</script><img src=x onerror=owned()>"';` + "\u2028"
	doc := edited(t, laboratory(t), "panel-5", func(p *diagram.Part) { p.Name, p.Note = evil, evil })
	if _, err := doc.Edit(func(tx *diagram.Tx) error { tx.SetInfo(diagram.Info{Title: evil, Site: evil}); return nil }); err != nil {
		t.Fatal(err)
	}
	page := phoneOf(t, Phone{Sheets: sheetsOf(t, doc), File: evil})
	if strings.Contains(page, "<script>owned") || strings.Contains(page, "<img") || strings.Count(page, "</script>") != 1 {
		t.Error("a name is part of the page")
	}
	const look = `let o = 0; window.owned = () => o++; setTimeout(() => { const pre = document.createElement("pre"); pre.id = "told";
const s = document.getElementById("board"); s.value = String(Array.from(s.options).findIndex(x => x.textContent.includes("(panel-5)"))); s.dispatchEvent(new Event("change"));
pre.textContent = [o, document.images.length, document.querySelector("#sheet h2").textContent, document.querySelector("#sheet textarea").value].join("|"); document.body.append(pre); }, 500);`
	if got := browser(t, page, look, "360"); !strings.HasPrefix(got, "0|0|</script><script>owned()</script><img") || strings.Count(got, "owned()</script>") != 2 {
		t.Errorf("in the browser: %q", got)
	}
}

// 1 000 parts take less than 2 MB.
func TestPhoneOfALargeBuilding(t *testing.T) {
	doc := diagramtest.Building(1000)
	sheets := Sheets(doc, diagram.FirstPlan, analysis.Trace(doc), nil, nil, unit.NorthAmerican)
	for _, work := range []bool{false, true} {
		if size := len(phoneOf(t, Phone{Sheets: sheets, Work: work})); size > 2_000_000 || size < 20_000 {
			t.Errorf("work %t: %d bytes", work, size)
		}
	}
}

// The browser keeps the entries of another file, plan or revision apart.
func TestPhoneKeys(t *testing.T) {
	sheets := sheetsOf(t, laboratory(t))
	keys := map[string]bool{}
	revised := slices.Clone(sheets)
	revised[0].info.Issue.Revision = "B"
	planned := slices.Clone(sheets)
	planned[0].Plan = "Upgrade"
	for _, p := range []Phone{{Sheets: sheets}, {Sheets: sheets, Work: true}, {Sheets: sheets, File: "a"}, {Sheets: revised}, {Sheets: planned}} {
		keys[p.page().Key] = true
	}
	if len(keys) != 5 {
		t.Errorf("%d keys for 5 pages", len(keys))
	}
}

// The crew is told the breaker, and of each lead the target and the greatest length.
func TestPhoneTellsTheWork(t *testing.T) {
	doc := laboratory(t)
	page := Phone{Sheets: sheetsOf(t, doc), Work: true, Longer: map[diagram.ID]int{"protector-2": 3}}.page()
	if len(page.Boards) != 1 {
		t.Fatalf("%d boards have work", len(page.Boards))
	}
	told := strings.Join(page.Boards[0].Rows[0].More, "\n")
	for _, want := range []string{"Breaker: 30 A, 3 poles.", "It is type 2, SCCR 200 kA.", "Phase lead: target 12 in, greatest 15 in", "Ground lead: target 12 in, greatest 15 in", "hold together"} {
		if !strings.Contains(told, want) {
			t.Errorf("the crew is not told %q in:\n%s", want, told)
		}
	}
	page = Phone{Sheets: sheetsOf(t, doc), Work: true, Longer: map[diagram.ID]int{}}.page()
	if told := strings.Join(page.Boards[0].Rows[0].More, "\n"); strings.Contains(told, "greatest 1") || !strings.Contains(told, "as short as can be") {
		t.Errorf("where nothing holds the crew is told:\n%s", told)
	}
}

// browser opens a page in a headless Chromium with a script behind its own, and returns
// what that wrote into an element of the id "told".
func browser(t *testing.T, page, script string, width string) string {
	t.Helper()
	program := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil && program == "" {
			program = found
		}
	}
	if program == "" {
		t.Skip("there is no Chromium on this machine; go run ./cmd/dev test installs it where it may")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "page.html")
	page = strings.Replace(page, "</body>", "<script>"+script+"</script></body>", 1)
	if err := os.WriteFile(path, []byte(page), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Minute)
	defer stop()
	cmd := exec.CommandContext(ctx, program, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--user-data-dir="+filepath.Join(dir, "profile"),
		"--window-size="+width+",2000", "--virtual-time-budget=8000", "--dump-dom", "file://"+path)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	found := regexp.MustCompile(`(?s)<pre id="told">(.*?)</pre>`).FindSubmatch(out)
	if found == nil {
		t.Fatalf("the script told nothing; the page is %.2000s", out)
	}
	return html.UnescapeString(string(found[1]))
}

// fillIn is what a person does, as a script: of each entry the field is found by the
// title of its record and its label. Then the page is loaded anew, and what is saved is
// told with what the fields show.
const fillIn = `
const entries = ENTRIES;
const tellAll = o => { const pre = document.createElement("pre"); pre.id = "told"; pre.textContent = JSON.stringify(o); document.body.append(pre); };
const find = (board, title, label) => {
  const select = document.getElementById("board");
  select.value = String(Array.from(select.options).findIndex(o => o.textContent.includes("(" + board + ")")));
  select.dispatchEvent(new Event("change"));
  const section = Array.from(document.querySelectorAll("#sheet section")).find(s => s.querySelector("h3").textContent === title);
  const l = Array.from(section.querySelectorAll("label")).find(l => l.textContent === label);
  return document.getElementById(l.htmlFor);
};
if (!sessionStorage.getItem("filled")) {
  sessionStorage.setItem("filled", "yes");
  for (const [board, title, label, value] of entries) { const f = find(board, title, label); f.value = value; f.dispatchEvent(new Event("input", {bubbles: true})); }
  location.reload();
} else {
  const shown = entries.map(([board, title, label]) => find(board, title, label).value);
  let blob;
  URL.createObjectURL = b => { blob = b; return "blob:none"; };
  HTMLAnchorElement.prototype.click = function () {};
  document.getElementById("save").click();
  const state = document.getElementById("state").textContent;
  const wide = document.documentElement.scrollWidth > document.documentElement.clientWidth;
  blob.text().then(csv => {
    window.confirm = () => false; document.getElementById("clear").click();
    const refused = Object.keys(localStorage).length;
    window.confirm = () => true; document.getElementById("clear").click();
    tellAll({shown, csv, state, wide, refused, left: Object.keys(localStorage).length});
  });
}`

type filledIn struct {
	Shown         []string
	CSV, State    string
	Wide          bool
	Refused, Left int
}

func fill(t *testing.T, p Phone, entries [][4]string) filledIn {
	t.Helper()
	list, err := json.Marshal(entries)
	if err != nil {
		t.Fatal(err)
	}
	var out filledIn
	if err := json.Unmarshal([]byte(browser(t, phoneOf(t, p), strings.Replace(fillIn, "ENTRIES", string(list), 1), "360")), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// What is filled in on the page is there after it was loaded anew, and the CSV that it
// saves changes just that.
func TestPhoneFilledInAndReadBack(t *testing.T) {
	doc := laboratory(t)
	entries := [][4]string{
		{"panel-5", "Panel", "Bus rating", "225"}, {"panel-5", "Panel", "Mounting", "surface"}, {"panel-5", "Panel", "Free positions", "12-14"},
		{"panel-5", "Panel", "Remarks", "door; \"jams\"\n=1+1"}, {"panel-5", "Panel", "Photos", "front.jpg, label.jpg"},
		{"panel-5", "Transformer that feeds it", "Transformer rating (kVA)", "37.5"},
		{"panel-5", "Feeder: T2 – Server room", "Raceway or cable", "steel conduit"},
		{"panel-5", "Protector: SPD-2", "Phase lead", "18"}, {"panel-5", "Protector: SPD-2", "Breaker", ""},
		{"panel-5", "A protector that is not listed", "Protector", "SPD-9"}, {"panel-5", "A protector that is not listed", "Type or class", "type 1"},
		{"panel-1", "Load: Chiller", "Overvoltage category", "III"},
	}
	got := fill(t, Phone{Sheets: sheetsOf(t, doc), File: "quay.clampline"}, entries)
	for i, e := range entries {
		if got.Shown[i] != e[3] {
			t.Errorf("%s: after loading anew it shows %q", e, got.Shown[i])
		}
	}
	if got.State != "12 entries kept in this browser." || got.Wide || got.Refused != 1 || got.Left != 0 {
		t.Errorf("state %q, wider than the screen: %t, %d kept after no, %d after yes", got.State, got.Wide, got.Refused, got.Left)
	}
	review := reviewed(t, doc, got.CSV)
	same(t, lines(review),
		"Server room, bus rating: not known → 225 A", "Server room, mounting: flush → surface", "Server room, free positions: not known → 12-14",
		"Server room, photos: none → front.jpg, label.jpg", "Server room, remarks: empty → door; \"jams\"\n=1+1",
		"T2, transformer rating: 30 kVA → 37.5 kVA", "feeder T2 – Server room, raceway or cable: not known → steel conduit",
		"Chiller, overvoltage category: not known → 3",
		"new protector SPD-9 on Server room: type 1",
		"SPD-2 on Server room, breaker: 30 A → none, or not known", "SPD-2 on Server room, phase lead: 12 in → 18 in")
}

// What a crew has built goes into the record, with the leads as measured.
func TestPhoneOfWorkAndReadBack(t *testing.T) {
	doc := laboratory(t)
	topology := analysis.Trace(doc)
	longer, err := handrule.Longer(context.Background(), doc, diagram.FirstPlan, topology, handrule.DefaultRule(), LeadStep(unit.NorthAmerican))
	if err != nil {
		t.Fatal(err)
	}
	const title = "Protector: SPD-2"
	got := fill(t, Phone{Sheets: sheetsOf(t, doc), Work: true, Longer: longer}, [][4]string{
		{"panel-5", title, "Phase lead", "12"}, {"panel-5", title, "Ground lead", "9.5"}, {"panel-5", title, "Installed on", "2026-11-29"},
		{"panel-5", title, "Installed by", "A. Tern"}, {"panel-5", title, "Indicator shows", "in order"}, {"panel-5", title, "Photos", "spd-2.jpg"},
	})
	var record diagram.Plan
	if _, err := doc.Edit(func(tx *diagram.Tx) error {
		record, _ = tx.Document().Plan(tx.BeginRecord(diagram.FirstPlan))
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	review, err := ReadRecord(strings.NewReader(got.CSV), doc, record, topology, unit.NorthAmerican)
	if err != nil || len(review.Problems) > 0 {
		t.Fatalf("%v, %v", err, review.Problems)
	}
	if _, err := doc.Edit(review.Apply); err != nil {
		t.Fatal(err)
	}
	planned, _ := doc.Protector("protector-2")
	built, _ := doc.Protector(diagram.Counterparts(doc, diagram.FirstPlan, record.ID)["protector-2"])
	if planned.Leads != serverRoomProtector().Leads || planned.Installed != (diagram.Installed{}) {
		t.Errorf("the plan has %+v", planned)
	}
	want := diagram.Installed{Date: "2026-11-29", By: "A. Tern", Measured: true, Indicator: diagram.InOrder, Photos: "spd-2.jpg"}
	if built.Installed != want || built.Leads.Earth.Length != 9.5*0.0254 || built.Leads.Phase != planned.Leads.Phase {
		t.Errorf("built is %+v with %+v", built.Installed, built.Leads)
	}
}
