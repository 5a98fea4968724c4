package chart

import "strconv"

// acronyms are the S-57 names of the classes this package names.
var acronyms = map[Class]string{
	ACHARE: "ACHARE",
	BCNCAR: "BCNCAR",
	BCNISD: "BCNISD",
	BCNLAT: "BCNLAT",
	BCNSAW: "BCNSAW",
	BCNSPP: "BCNSPP",
	BRIDGE: "BRIDGE",
	BOYCAR: "BOYCAR",
	BOYISD: "BOYISD",
	BOYLAT: "BOYLAT",
	BOYSAW: "BOYSAW",
	BOYSPP: "BOYSPP",
	CBLARE: "CBLARE",
	CBLOHD: "CBLOHD",
	CBLSUB: "CBLSUB",
	CAUSWY: "CAUSWY",
	CTNARE: "CTNARE",
	COALNE: "COALNE",
	CONVYR: "CONVYR",
	DAMCON: "DAMCON",
	CANALS: "CANALS",
	DEPARE: "DEPARE",
	DEPCNT: "DEPCNT",
	DRGARE: "DRGARE",
	DYKCON: "DYKCON",
	FAIRWY: "FAIRWY",
	FSHFAC: "FSHFAC",
	FLODOC: "FLODOC",
	GATCON: "GATCON",
	HULKES: "HULKES",
	LNDARE: "LNDARE",
	LOKBSN: "LOKBSN",
	LOGPON: "LOGPON",
	MARCUL: "MARCUL",
	OBSTRN: "OBSTRN",
	OFSPLF: "OFSPLF",
	PILPNT: "PILPNT",
	PIPARE: "PIPARE",
	PIPOHD: "PIPOHD",
	PIPSOL: "PIPSOL",
	PONTON: "PONTON",
	PRCARE: "PRCARE",
	PYLONS: "PYLONS",
	RESARE: "RESARE",
	RIVERS: "RIVERS",
	SBDARE: "SBDARE",
	SLCONS: "SLCONS",
	SOUNDG: "SOUNDG",
	TSSLPT: "TSSLPT",
	TSEZNE: "TSEZNE",
	UWTROC: "UWTROC",
	UNSARE: "UNSARE",
	WRECKS: "WRECKS",
	MCOVR:  "M_COVR",
	MNSYS:  "M_NSYS",
	MQUAL:  "M_QUAL",
	MSDAT:  "M_SDAT",
	MVDAT:  "M_VDAT",
	CAGGR:  "C_AGGR",
	CASSO:  "C_ASSO",
	CSTAC:  "C_STAC",
	DSID:   "DSID",
}

// String is the S-57 acronym of the class, or its number where this package has
// no name for it.
func (c Class) String() string {
	switch name, ok := acronyms[c]; {
	case ok:
		return name
	case c == refusedArea:
		return "left out"
	case c == NoClass:
		return ""
	}
	return strconv.Itoa(int(c))
}
