// Package drawer is what slides in below the sheet: its head with a tab for
// each view, and the findings. It shows what it is handed and says what was
// asked for; it changes no document.
package drawer
