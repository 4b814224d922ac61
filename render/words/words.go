// Package words is every word the sheets print of themselves, in the
// languages a plan may ask for. What comes from the plan, the parts list or
// the goods files is printed as it stands there.
//
// A catalogue is a struct: a word that no language has does not compile, a
// word one language lacks fails the test.
package words

import "strings"

// Words is the catalogue of one language. Fields with verbs are formats for
// fmt, with the same verbs in the same order in every language.
type Words struct {
	Tag   string // BCP 47
	Comma bool   // decimals are written with a comma

	CurrencyLast bool // the currency is written after the number, with a blank

	// Units, and the name of a slot on each surface.
	Inch, Foot, Millimetre   string
	Wire, Groove, Hole, Slot string

	// Faces, as headings name them.
	FrontFace, RightFace, BackFace, LeftFace string

	// Title block and what stands on every sheet.
	Owner, PlanTitle, Season, Drawing, Scale, NotToScale string
	RevisionDate, PlanMark, Sheet                        string
	SheetOf                                              string // number, of how many
	Continued                                            string // title, number
	CautionLine, CasterLine, NotForConstruction          string
	CheckRuler                                           string // unit

	// Cover.
	Cover, CoverUnder, PictorialNote, Summary, SheetIndex, Title string
	Frame, Stand, SizeOver, FacesDressed, PartKinds, Pieces      string
	Products, Positions, UnitsHeld                               string
	WeightStructure, WeightHardware, WeightGoods, WeightAll      string
	Cautions                                                     string
	LiftTogether, GuardEyes, LockCasters, LoadLow, LoadBoth      string
	RatingsAssumed, MakersGovern, CodesGovern                    string

	// Unit build sheet.
	UnitBuild                                 string
	UnitUnder                                 string // unit
	FramePanelsStand, BuildSteps, Size, Aisle string
	HighOf                                    string // height
	StepBase                                  string // frame, width, depth
	StepFeet                                  string // how many, stand
	StepLock, StepLevel, StepFix              string
	StepPanels                                string // face, how many, panel, bottom, top
	StepDatum                                 string // slot, height
	StepHang                                  string // face, pieces, address of the lowest row
	StepLoad, StepSign                        string

	// Elevations.
	HardwareOf, GoodsOf                           string // face
	HangEvery                                     string // slot word
	AddressNote, OnThisFace, Section              string
	TopEdge, BottomEdge, FinishedFloor, StaysBare string
	AllottedBest                                  string // rows, aim
	AllottedWithin                                string // rows, aim, how far from the best at most
	AimCover, AimProfit, AimRange                 string
	BaysOf                                        string // from, to, of how many
	BayOf                                         string // bay, of how many
	FromTo                                        string // two places along the face
	CutTo                                         string // length
	NoFamily, NoGoods                             string

	PlacesAs string // address of the row whose places are the same
	SeeTable string

	// Lists.
	Item, Part, Quantity, Packs, Weight, Where                          string
	WhereFrom                                                           string // unit
	PickList, PickUnder                                                 string
	PickTotal                                                           string // pieces, weight
	GroupStructure, GroupShelving, GroupHooks, GroupRails, GroupOther   string
	PositionKey, KeyUnder, Address, Product, SKU, Facings, Units        string
	HeightIn                                                            string // unit
	KeyByName, KeyBySKU, IndexUnder, ReorderAt                          string
	Restock, RestockUnder, Bring, Cases, LeftOver, FullLook, LastsDays  string
	Run                                                                 string // sizes of each stack
	RestockTotal                                                        string // products, units, cases
	Tags, TagsUnder, TagsBare                                           string
	Findings, FindingsUnder, NoFindings, Finding, Source                string
	Rule                                                                string
	StopGroup, CautionGroup, NoteGroup                                  string // how many
	Waived, WaivedBecause                                               string
	Checked                                                             string
	CheckedList                                                         []string // what every plan is held to before the rules
	FoundHead, WaivedMark, DeferLine                                    string
	FindingsHere                                                        string // their numbers
	FindingsOfUnit                                                      string // their numbers
	Expected, Fix, LevelNote, LevelCaution, LevelStop                   string
	SignOff, SignUnder, BuiltBy, CheckedBy, ApprovedBy, Signature, Date string
	CheckPanels                                                         string // slot, height
	CheckRows                                                           string // rows, pieces
	CheckGoods, CheckSafe, Photos                                       string
	PhotoOf                                                             string // face

	StaticsWords
	PickWords
	CutWords
	BuyWords
	KitWords
	ResetWords
	SeasonsWords

	ruleTitles map[string]string // by the rules' ids; the layout's own titles are English
	listWords  map[string]string // by the lists' own words, which are English
	resetLists map[string]string // as listWords
}

// StaticsWords are those of the statics sheets.
type StaticsWords struct {
	Statics, StaticsUnder                                                        string
	WorstShelf                                                                   string // row and part
	SagScale                                                                     string // of how many, how many times deeper
	SagTrue                                                                      string // of how many
	SagSays                                                                      string // load, sag, where, the n of span/n, span
	SagOthers                                                                    string // supports, sag
	Standing, SideFront, SideBack, SideRight, SideLeft                           string
	CentreFull, CentreBare                                                       string // mass, height
	EdgesKey                                                                     string // the n of 1:n
	FaceHead, HardwareHead, GoodsHead, TogetherHead, WholeUnit                   string
	BalanceSays                                                                  string // mass, per cent
	FootHead, LoadHead, OneOffHead, RatedHead, ShareHead                         string
	Tipping, StateHead, EdgeHead, MassHead, CentreHead, UpHead, OutHead, ArmHead string
	ForceTopHead, TiltHead                                                       string
	ForceAtHead                                                                  string // height
	StateFull, StateBare, StateFront, StateBack, StateRight, StateLeft, StateLow string
	ShelfLoads, RowHead, SupportsHead, SagHead, SpanHead, RatioHead              string
	OthersHead, StiffHead                                                        string
	HoldLoads, PiecesHead, MostHead, MomentHead, TipHead                         string
	PanelLoads, BayHead, GripHead                                                string
	Heavier                                                                      string // per cent
	HeavierNothing                                                               string // per cent
	FixedSays                                                                    string
	Basis, BasisLoads, BasisSag, BasisHolds, BasisFeet, BasisTip                 string
	BasisNoTest, BasisRatings                                                    string
	BasisBoard                                                                   string // part, material, E, thickness, depth, long-term factor, source
	BasisGiven                                                                   string // part, EI, long-term factor
}

// RuleTitle is the title of a rule, of which English has the one given.
func (w *Words) RuleTitle(id, title string) string {
	if t := w.ruleTitles[id]; t != "" {
		return t
	}
	return title
}

// In returns the catalogue of a language: en, es or fr. Any other is en.
func In(language string) *Words {
	switch language {
	case "es":
		return spanish()
	case "fr":
		return french()
	}
	return english()
}

// Languages lists the languages there is a catalogue for.
func Languages() []string { return []string{"en", "es", "fr"} }

// Decimal writes the decimal point of a number as the language does.
func (w *Words) Decimal(number string) string {
	if w.Comma {
		return strings.Replace(number, ".", ",", 1)
	}
	return number
}

// SortKey is what a name is sorted by: letters large and small alike, accents
// left out, ñ a letter of its own after n.
func (w *Words) SortKey(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch r {
		case 'à', 'á', 'â', 'ä':
			b.WriteByte('a')
		case 'è', 'é', 'ê', 'ë':
			b.WriteByte('e')
		case 'í', 'î', 'ï':
			b.WriteByte('i')
		case 'ó', 'ô', 'ö':
			b.WriteByte('o')
		case 'ù', 'ú', 'û', 'ü':
			b.WriteByte('u')
		case 'ÿ':
			b.WriteByte('y')
		case 'ç':
			b.WriteByte('c')
		case 'æ':
			b.WriteString("ae")
		case 'œ':
			b.WriteString("oe")
		case 'ñ':
			b.WriteString("n~")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// CautionList is what the crew is told before anyone starts. What is said of
// casters and of a second side is left out of units that have none.
func (w *Words) CautionList(casters, twoSided bool) []string {
	list := []string{w.LiftTogether}
	if casters {
		list = append(list, w.LockCasters)
	}
	list = append(list, w.GuardEyes, w.LoadLow)
	if twoSided {
		list = append(list, w.LoadBoth)
	}
	return append(list, w.RatingsAssumed, w.MakersGovern, w.CodesGovern)
}
