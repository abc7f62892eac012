// Package record is what a job says for a customer's sheet: whose car it was, and photos of
// what was found. A photo is taken as the bytes of a JPEG or a PNG file, and what a camera
// writes into those beside the picture, such as the place where it was taken, is left out.
// It touches no file.
package record

// Sheet is who a job was done for and by whom, as it was written; "" of what was not.
type Sheet struct {
	Shop     string
	Customer string
	Vehicle  string
	Odometer string // with its unit, if one was written
	Order    string
	By       string
	Date     string // of the calendar, as in 2026-11-26; that of the job, which is the same
}

// Keys are what is said of a sheet, by the keys that a job has for it.
var Keys = []string{"shop", "customer", "vehicle", "odometer", "order", "by", "date"}

// At is where a sheet has what one of Keys is for.
func (s *Sheet) At(key string) *string {
	return map[string]*string{
		"shop": &s.Shop, "customer": &s.Customer, "vehicle": &s.Vehicle, "odometer": &s.Odometer, "order": &s.Order, "by": &s.By, "date": &s.Date,
	}[key]
}

// Empty tells whether nothing of a sheet was written, the date aside: a job has one without
// any sheet.
func (s Sheet) Empty() bool {
	s.Date = ""
	return s == Sheet{}
}

// Photo is a picture of what was found.
type Photo struct {
	File  string // as the job names it
	Shows string // what is seen on it; "" unless said
	Picture
}

// Most is how many photos a job may have: as many as a sheet has room for.
const Most = 12
