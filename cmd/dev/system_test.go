package main

import "testing"

func TestDetectSystem(t *testing.T) {
	tests := []struct {
		name      string
		goos      string
		osRelease string
		want      system
	}{
		{"Debian", "linux", "PRETTY_NAME=\"Debian GNU/Linux 12 (bookworm)\"\nID=debian\n",
			system{"Debian GNU/Linux 12 (bookworm)", debianFamily, "linux"}},
		{"child of Ubuntu", "linux", "# made by hand\nID=mint\nID_LIKE=\"ubuntu debian\"\n",
			system{"mint", debianFamily, "linux"}},
		{"single quotes", "linux", "ID='fedora'\nPRETTY_NAME='Fedora Linux 42'\n",
			system{"Fedora Linux 42", fedoraFamily, "linux"}},
		{"child of Red Hat's", "linux", "ID=rocky\nID_LIKE=\"rhel centos fedora\"\n",
			system{"rocky", fedoraFamily, "linux"}},
		{"Arch", "linux", "ID=arch\n", system{"arch", archFamily, "linux"}},
		{"commented id", "linux", "#ID=debian\nID=void\n", system{"void", otherFamily, "linux"}},
		{"nothing known", "linux", "", system{"this Linux", otherFamily, "linux"}},
		{"macOS", "darwin", "", system{"macOS", macFamily, "darwin"}},
		{"Windows", "windows", "", system{"Windows", windowsFamily, "windows"}},
		{"another Unix", "freebsd", "ID=debian\n", system{"freebsd", otherFamily, "freebsd"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := detectSystem(test.goos, test.osRelease); got != test.want {
				t.Errorf("got %+v, want %+v", got, test.want)
			}
		})
	}
}

func TestHasScreen(t *testing.T) {
	tests := []struct {
		name    string
		family  family
		environ map[string]string
		want    bool
	}{
		{"X11", debianFamily, map[string]string{"DISPLAY": ":0"}, true},
		{"Wayland", archFamily, map[string]string{"WAYLAND_DISPLAY": "wayland-0"}, true},
		{"terminal only", debianFamily, nil, false},
		{"set to nothing", otherFamily, map[string]string{"DISPLAY": ""}, false},
		{"macOS", macFamily, nil, true},
		{"Windows", windowsFamily, nil, true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			environment := func(name string) string { return test.environ[name] }
			if got := (system{family: test.family}).hasScreen(environment); got != test.want {
				t.Errorf("got %v, want %v", got, test.want)
			}
		})
	}
}
