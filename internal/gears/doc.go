// Package gears tells what each pair of chainring and sprocket does: how far it
// goes, how fast, how crooked the chain runs, how hard it is pulled. It is the
// calculation gears.
package gears
