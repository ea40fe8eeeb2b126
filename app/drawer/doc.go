// Package drawer is what slides in below the sheet: the findings. It shows
// what it is handed and says what was clicked.
package drawer
