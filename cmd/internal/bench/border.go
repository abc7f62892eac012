package bench

// Action is what a Request asks for.
type Action string

// The actions. Each says which fields of the request it reads and which of the response it
// fills; Revision and Job are in every response while a job is open.
const (
	// Hello is what the page shows before any job is open: Program, Cautions and Help.
	Hello Action = "hello"
	// Begin asks for a new job: Lines is every line typed so far, oldest first, none at
	// first. It fills Interview, until that is Done. Then the job is made and open: Changed
	// is its files, and the rest is as of Open. Nothing is kept between two such requests.
	Begin Action = "begin"
	// Open opens a job: of Files, all that the page keeps of it, or of Zip; of a zip Changed
	// is its files. It fills Said, State and Cautions. Cylinder is the one to read.
	Open Action = "open"
	// Type obeys one line, Line, as evendrop jot does: a reading "342.5 3.29", "b 11.8 0.70",
	// "stop -31.5 24", "mark", "fix 3 342.5 2.22", "undo", "k". It fills Said, Changed, Ended
	// and State. While State.Asks is there, the line is the answer to that.
	Type Action = "type"
	// State is where the job stands, once more: State.
	StateOf Action = "state"
	// Expect is what the gauge should show at an angle, Line, as far as it is typed, with the
	// crank turned as Turn says: Expected.
	Expect Action = "expect"
	// Marks is what the marks and lobes are by the readings so far: Marks.
	MarksOf Action = "marks"
	// History is TDC and its ± after so many readings, oldest first: History. It reckons at
	// most Most of those that it has not reckoned before, the newest first, so that no key
	// waits long: ask again while History.Whole is false.
	HistoryOf Action = "history"
	// Picture draws one of Pictures, Name, of the N-th cylinder from 0, or lobe: Picture.
	Picture Action = "picture"
	// Sheet is the customer's sheet, a page of its own: Page.
	Sheet Action = "sheet"
	// Details is the whole answer: Document.
	Details Action = "details"
	// Attach puts Files into the job's folder, such as a photo's, which the line "photo
	// pin.jpg the pin" then names: Changed and State. None that is there is overwritten.
	Attach Action = "attach"
	// Export is all files of the job: Zip.
	Export Action = "export"
)

// Request is what the page asks.
type Request struct {
	Action   Action   `json:"action" enum:"hello|begin|open|type|state|expect|marks|history|picture|sheet|details|attach|export"`
	Revision int      `json:"revision,omitempty" doc:"of the job that the page has, as the last response said: another one is refused with stale; 0: whatever is open"`
	Files    []File   `json:"files,omitempty" doc:"of open and attach"`
	Zip      string   `json:"zip,omitempty" doc:"of open, in base64"`
	Lines    []string `json:"lines,omitempty" doc:"of begin: every line typed so far"`
	Line     string   `json:"line,omitempty" doc:"of type and expect"`
	Turn     string   `json:"turn,omitempty" enum:"forward|backward" doc:"of expect; empty: as State.turn"`
	Cylinder int      `json:"cylinder,omitempty" doc:"of open: 0 is the job's first"`
	Name     string   `json:"name,omitempty" doc:"of picture"`
	N        int      `json:"n,omitempty" doc:"of picture"`
	Most     int      `json:"most,omitempty" doc:"of history: 0 is 1"`
}

// File is one of a job's files, whole. Either Text or Base64 holds its bytes: a text is
// UTF-8 with every byte as it is, a byte order mark and carriage returns among them.
type File struct {
	Name   string `json:"name" doc:"in the job's folder, with / between folders; never leads out of it"`
	Text   string `json:"text,omitempty" doc:"of a file in UTF-8"`
	Base64 string `json:"base64,omitempty" doc:"of any other"`
}

// Response is what comes back. Where Error or Panic is there, nothing was changed.
type Response struct {
	Error string `json:"error,omitempty" doc:"why nothing was done, in words to show"`
	Stale bool   `json:"stale,omitempty" doc:"with error: no job is open here, or another revision of it: open it again with the files that are kept"`
	Panic string `json:"panic,omitempty" doc:"the core failed, and has no job open any more: open it again with the files that are kept"`

	Program   *Program   `json:"program,omitempty"`
	Revision  int        `json:"revision" doc:"of the job that is open now; 0: none"`
	Job       *Job       `json:"job,omitempty"`
	Said      []Said     `json:"said,omitempty" doc:"in order: shown as it is, and read aloud to a screen reader"`
	Changed   []File     `json:"changed,omitempty" doc:"whole files to be kept, all of them in one transaction, before \"kept\" is shown; none is ever taken away"`
	Ended     bool       `json:"ended,omitempty" doc:"the line ended the sitting"`
	State     *State     `json:"state,omitempty"`
	Interview *Interview `json:"interview,omitempty"`
	Expected  *Expected  `json:"expected,omitempty"`
	Marks     *Marks     `json:"marks,omitempty"`
	History   *History   `json:"history,omitempty"`
	Picture   string     `json:"picture,omitempty" doc:"SVG without script"`
	Page      string     `json:"page,omitempty" doc:"HTML, whole and without script"`
	Document  []Block    `json:"document,omitempty"`
	Zip       string     `json:"zip,omitempty" doc:"in base64, as evendrop find reads it"`
	Cautions  *Cautions  `json:"cautions,omitempty"`
	Help      string     `json:"help,omitempty" doc:"what can be typed, in lines"`
}

// Program is what the core is.
type Program struct {
	Name    string `json:"name" enum:"evendrop"`
	Format  int    `json:"format" enum:"1" doc:"of this border: fields may be added to a format, none changed"`
	Version string `json:"version" doc:"the source that it is built from"`
}

// Cautions are acknowledged once a sitting, before anything else.
type Cautions struct {
	Title string    `json:"title"`
	Line  string    `json:"line" doc:"the one line that stands under everything"`
	List  []Caution `json:"list"`
	Ask   string    `json:"ask" doc:"what is to be agreed to"`
}

// Caution is one of them.
type Caution struct {
	Hazard string `json:"hazard"`
	Short  string `json:"short" doc:"one line"`
	Advice string `json:"advice" doc:"in full"`
}

// Job is what is open.
type Job struct {
	Title     string     `json:"title" doc:"what to call it in a list of jobs; never empty"`
	Engine    string     `json:"engine,omitempty"`
	File      string     `json:"file" doc:"the job file's name"`
	Unit      string     `json:"unit" enum:"mm|in" doc:"of every length shown"`
	Gauge     string     `json:"gauge" enum:"dial|rod|borescope"`
	Scale     Scale      `json:"scale"`
	Cylinders []Cylinder `json:"cylinders"`
	Lobes     []string   `json:"lobes" doc:"names; lobe NAME goes on reading one"`
	Said      []string   `json:"instruments" doc:"engine and instruments, each a line, as the job states them"`
	Pictures  []string   `json:"pictures" doc:"names that picture takes"`
	Driven    string     `json:"driven,omitempty" doc:"how the cams are driven; empty: not said"`
	Drives    []Answer   `json:"drives" doc:"lines that say how the cams are driven, also where it was said before; empty: nothing is judged yet, or the job file lists its joints"`
}

// Scale is how the protractor is written.
type Scale struct {
	Keys     []Key    `json:"keys" doc:"that stand beside the digits: BTDC and ATDC where angles have a side; a minus where they may be negative"`
	Examples []string `json:"examples" doc:"angles as this protractor writes them, for a hint"`
	Counts   string   `json:"counts" enum:"with|against" doc:"its numbers grow with or against the running direction"`
	Wraps    int      `json:"wraps" enum:"720|360|180|90" doc:"where it comes round"`
	Step     float64  `json:"step_deg"`
}

// Key is a key that types something.
type Key struct {
	Types string `json:"types" doc:"what it adds to the line"`
	Shows string `json:"shows"`
	Says  string `json:"says" doc:"for a screen reader"`
}

// Cylinder is one of the job's.
type Cylinder struct {
	Number   int    `json:"number"`
	Readings int    `json:"readings"`
	Others   string `json:"others,omitempty" doc:"such as 1 stop and 2 dwells"`
	Line     string `json:"line" doc:"what to type to read it"`
}

// Said is something to show: one thing that was said, as paragraphs.
type Said struct {
	Kind  string   `json:"kind" enum:"remark|lines|answer" doc:"a remark stands beside the answers; lines keep their breaks and blanks"`
	Parts []string `json:"parts" doc:"paragraphs, or of lines the lines"`
	News  []string `json:"news,omitempty" doc:"those parts of an answer that are said once: what moved, which readings are suspect"`
}

// State is where the job stands, for the screens.
type State struct {
	Cylinder int    `json:"cylinder"`
	Set      int    `json:"set" doc:"of the protractor, from 1"`
	Lobe     string `json:"lobe,omitempty" doc:"the lobe that is read in place of the piston"`
	Turn     string `json:"turn" enum:"forward|backward" doc:"of the readings to come"`
	Prompt   string `json:"prompt" doc:"what the next line is taken as"`

	TDC      *TDC      `json:"tdc" doc:"null: it cannot be determined yet"`
	Standing []string  `json:"standing" doc:"where the job stands and what to read next, in paragraphs, as evendrop jot says it"`
	Next     *Next     `json:"next" doc:"null: no place is left to read, in doubt which side is which, or a lobe is read"`
	Readings []Reading `json:"readings" doc:"all of the cylinder, in the file's order"`
	Seen     []string  `json:"seen" doc:"stops, dwells and views of the cylinder, each a line"`
	Lifts    []Lift    `json:"lifts" doc:"of the lobe that is read"`
	Warnings []string  `json:"warnings" doc:"what weakens TDC, each with what to do"`

	Question *Question `json:"question" doc:"about readings that are kept: its keys answer it, another reading leaves it; null: none"`
	Asks     *Asks     `json:"asks" doc:"about a mark or a cylinder that is not kept yet: the next line answers it; null: nothing"`
	Undo     *Deed     `json:"undo" doc:"what undo would take back; null: nothing"`
	Redo     *Deed     `json:"redo" doc:"what redo would do again; null: nothing"`
}

// TDC is where true TDC is. Its texts are rounded; its numbers are not.
type TDC struct {
	Text     string  `json:"text" doc:"such as 3.36 ± 0.09 deg"`
	At       string  `json:"at" doc:"3.36, or 12.0 BTDC"`
	Within   string  `json:"within" doc:"0.09: half-width of the 95 % interval, deg"`
	AgreeTo  string  `json:"agree_to" doc:"what the readings agree to, before the protractor's own error"`
	Sure     bool    `json:"sure" doc:"false: do not go by it, for the reason in why"`
	Why      string  `json:"why,omitempty"`
	Readings int     `json:"readings" doc:"that it is from, in this set"`
	AtDeg    float64 `json:"at_deg" doc:"as the protractor shows it"`
	Half     float64 `json:"half_deg" doc:"within, unrounded"`
	Agree    float64 `json:"agree_deg" doc:"agree_to, unrounded"`
	Limited  bool    `json:"protractor_limits" doc:"more readings hardly help: the protractor's own error is the limit"`
}

// Next is the next best reading, or what to look for in its place.
type Next struct {
	Text   string   `json:"text" doc:"the whole sentence"`
	Spoken string   `json:"spoken" doc:"the same to be spoken aloud, short"`
	Turn   string   `json:"turn" enum:"forward|backward"`
	Side   string   `json:"side,omitempty" enum:"rising|falling" doc:"empty: it is something else to look for"`
	Drop   string   `json:"drop,omitempty" doc:"how far the piston is down there, with its unit"`
	Angle  string   `json:"angle,omitempty" doc:"near which the protractor stands then; empty while TDC is not determined"`
	Gauge  string   `json:"gauge,omitempty" doc:"near which the gauge shows then, with its unit; empty while TDC is not determined"`
	Then   string   `json:"then,omitempty" doc:"what the readings would agree to, deg"`
	Enough bool     `json:"enough" doc:"more readings will hardly help"`
	Again  []string `json:"again" doc:"early places to read once more before the end"`
	Angled *float64 `json:"angle_deg" doc:"null: as angle"`
	Depth  *float64 `json:"gauge_mm" doc:"null: as gauge"`
}

// Reading is one that was kept.
type Reading struct {
	Number   int      `json:"number" doc:"that fix and strike go by"`
	File     string   `json:"file"`
	Line     int      `json:"line" doc:"in that file"`
	Set      int      `json:"set"`
	Turn     string   `json:"turn" enum:"forward|backward"`
	Angle    string   `json:"angle"`
	Depth    string   `json:"depth" doc:"as the gauge showed it, with its unit"`
	Off      string   `json:"off" doc:"depth read less the curve's, with its sign and unit; empty: no curve"`
	Suspect  bool     `json:"suspect" doc:"it does not fit, or was asked about and left as typed"`
	Note     string   `json:"note,omitempty"`
	Fix      string   `json:"fix" doc:"the line that types it once more, to be changed and typed"`
	Strike   string   `json:"strike" doc:"the line that takes it out"`
	AngleDeg float64  `json:"angle_deg" doc:"as the protractor shows it"`
	DepthMm  float64  `json:"depth_mm" doc:"as the gauge shows it"`
	Residual *float64 `json:"residual_mm" doc:"null: no curve"`
	Weight   *float64 `json:"weight" doc:"1 to 0; null: no curve"`
}

// Lift is a lift of the lobe that is read.
type Lift struct {
	Number int    `json:"number"`
	Angle  string `json:"angle"`
	Lift   string `json:"lift" doc:"with its unit"`
	Turn   string `json:"turn" enum:"forward|backward"`
}

// Question is what is asked about readings that are kept.
type Question struct {
	Text    string   `json:"text"`
	Answers []Answer `json:"answers" doc:"each a button; the first keeps what was typed"`
	About   []int    `json:"about" doc:"numbers of the readings; empty: of one that was not kept"`
}

// Answer is one of the keys that answer a question.
type Answer struct {
	Line  string `json:"line" doc:"what to type for it"`
	Shows string `json:"shows" doc:"the words of its button"`
}

// Asks is what the next line answers.
type Asks struct {
	Of    string `json:"of" doc:"mark, cylinder, sheet, or lift, card or drive: how the cams are driven"`
	Text  string `json:"text"`
	Usual string `json:"usual,omitempty" doc:"what an empty line stands for"`
	Leave string `json:"leave" doc:"the line that leaves it out"`
}

// Deed is something that can be taken back or done again.
type Deed struct {
	Says string `json:"says" doc:"what was done, such as reading 342.5 3.29, turned forward"`
	Line string `json:"line" doc:"undo or redo"`
}

// Interview is a question of begin.
type Interview struct {
	Topic   string   `json:"topic" doc:"its name"`
	Text    string   `json:"text" doc:"the question, in lines"`
	Usual   string   `json:"usual,omitempty" doc:"what an empty line stands for, in words"`
	Choices []string `json:"choices" doc:"that may be typed by their numbers from 1, several with commas"`
	Buttons []Answer `json:"buttons" doc:"answers of one tap; empty of most questions; once it is done the marks that were named, each a line that asks about it"`
	Reply   string   `json:"reply,omitempty" doc:"what is said to the last line: a paragraph"`
	Drawing string   `json:"drawing,omitempty" doc:"lines that keep their breaks and blanks"`
	Taken   bool     `json:"taken" doc:"the last line was an answer; one that was not is not to be sent again, but for back"`
	Number  int      `json:"number" doc:"how many were answered before"`
	Left    bool     `json:"left,omitempty" doc:"who was asked left: nothing is made"`
	Done    bool     `json:"done,omitempty" doc:"nothing is left to ask: the job is made and open"`
}

// Expected is what the gauge should show at an angle.
type Expected struct {
	Angle string  `json:"angle" doc:"as it was understood"`
	Gauge string  `json:"gauge" doc:"near which it should show, with its unit; empty: not known yet"`
	Side  string  `json:"side,omitempty" enum:"rising|falling" doc:"of TDC; empty: not known yet"`
	Says  string  `json:"says,omitempty" doc:"why the angle cannot be one of this protractor"`
	Depth float64 `json:"gauge_mm"`
	Sigma float64 `json:"standard_uncertainty_mm"`
}

// Marks is what the marks and lobes are by the readings so far.
type Marks struct {
	Headline string   `json:"headline" doc:"what they come to, in a sentence; empty: no marks"`
	Untold   string   `json:"untold,omitempty" doc:"why nothing can be said yet"`
	Look     []string `json:"look" doc:"what to look at or read next, the cheapest first"`
	Notes    []string `json:"notes" doc:"what weakens it, each with what to do"`
	Marks    []Mark   `json:"marks"`
	Measured []Mark   `json:"measured" doc:"what they should be is unknown, so they are not judged"`
	Lobes    []Lobe   `json:"lobes"`
	From     float64  `json:"from_deg" doc:"of one scale that holds every mark's bar and limit"`
	To       float64  `json:"to_deg"`
	Ticks    []Tick   `json:"ticks" doc:"of that scale"`
}

// Tick is a number on a scale.
type Tick struct {
	At    float64 `json:"at_deg"`
	Shows string  `json:"shows"`
}

// Mark is one mark compared with true TDC: crank degrees, late positive.
type Mark struct {
	Name    string  `json:"name"`
	On      string  `json:"on" doc:"what carries it"`
	State   string  `json:"state" enum:"within|outside|close|none" doc:"none: no limit is stated, or it is only measured"`
	Verdict string  `json:"verdict" doc:"the same in words; empty of none"`
	Off     string  `json:"off" doc:"such as 2.8 ± 0.4 deg late"`
	Says    string  `json:"says" doc:"what to make of it, in a sentence or two"`
	Read    string  `json:"read,omitempty" doc:"crank degrees after TDC"`
	Should  string  `json:"should_be,omitempty" doc:"the same"`
	Limit   string  `json:"limit,omitempty" doc:"either way"`
	At      float64 `json:"at_deg"`
	Half    float64 `json:"half_deg" doc:"half-width of the 95 % interval"`
	Allowed float64 `json:"limit_deg" doc:"either way of 0; 0: none is stated"`
}

// Lobe is a cam lobe.
type Lobe struct {
	Name   string `json:"name"`
	Valve  string `json:"valve" enum:"inlet|exhaust"`
	Lifts  int    `json:"lifts"`
	Says   string `json:"says" doc:"when it opens and closes; empty: not determined"`
	Line   string `json:"line" doc:"what to type to read on"`
	Number int    `json:"n" doc:"that picture takes"`
}

// History is TDC after so many readings.
type History struct {
	Points []Point `json:"points" doc:"oldest first, those that are reckoned"`
	Whole  bool    `json:"whole" doc:"none is left to reckon"`
}

// Point is TDC after the first so many readings of the set.
type Point struct {
	Readings int     `json:"readings"`
	Text     string  `json:"text" doc:"such as 3.36 ± 0.09 deg"`
	At       float64 `json:"at_deg" doc:"from where TDC is now, in the direction of growing numbers"`
	Half     float64 `json:"half_deg"`
	Sure     bool    `json:"sure"`
}

// Block is a piece of a document.
type Block struct {
	Kind    string     `json:"kind" enum:"heading|paragraph|list|table|facts|figure|lines"`
	Role    string     `json:"role,omitempty" enum:"finding|warning|caution|quiet|never" doc:"of a paragraph or a list"`
	Level   int        `json:"level,omitempty" doc:"of a heading: 1 is the title"`
	Text    string     `json:"text,omitempty" doc:"of a heading, a paragraph and lines; a figure's or a table's caption"`
	Ordered bool       `json:"ordered,omitempty" doc:"of a list"`
	Items   []string   `json:"items,omitempty" doc:"of a list"`
	Header  []string   `json:"header,omitempty" doc:"of a table"`
	Rows    [][]string `json:"rows,omitempty" doc:"of a table; of facts pairs of what and is"`
	States  []string   `json:"states,omitempty" enum:"|within|outside|close|doubtful" doc:"of a table's rows"`
	SVG     string     `json:"svg,omitempty" doc:"of a figure"`
}
