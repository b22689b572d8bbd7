"""How others class the constituents of essential oils, and what they read in them.

``FAMILIES`` is (source, what the source says, our families that agree with it,
CAS numbers). Names that a source gives without an isomer stand here under the
number without one.
"""

ALKENYL = "phenylpropanoids"

TABLE_2014 = (
    "Essential Oils and Their Constituents as Anticancer Agents: A Mechanistic View,"
    " BioMed Research International 2014, 154106, Table 1 (read; the Greek letters"
    " are lost in the copy that was read)"
)
SCHEME = (
    "Freie Universität Berlin, Institute of Chemistry, Terpenes, web page (read):"
    " examples of monoterpenes and sesquiterpenes"
)
HANDBOOK = (
    "C. Sell, Chemistry of Essential Oils, chapter 5 of Handbook of Essential Oils"
    " (K. H. C. Baser and G. Buchbauer, eds.), as copied on a web page (read in part:"
    " monoterpenoids; products of shikimic acid)"
)
ENCYCLOPAEDIA = (
    "Wikipedia, Monoterpene, as copied on a secondary page (read): bicyclic"
    " monoterpenoids with a ketone, an alcohol, an ether and a peroxide bridge"
)
CHEBI = (
    "ChEBI, CHEBI:25409 monoterpenoid, members as listed in the records of a public"
    " set of classification programs (read in part)"
)
REVIEW_2008 = (
    "F. Bakkali, S. Averbeck, D. Averbeck and M. Idaomar, Biological effects of"
    " essential oils - a review, Food and Chemical Toxicology 46 (2008) 446-475,"
    " section on chemical composition (from memory)"
)

OXYGENATED = (
    *("monoterpene alcohols", "monoterpene aldehydes", "monoterpene esters"),
    *("monoterpene ketones", "monoterpene oxides", "monoterpene phenols"),
)
MONOTERPENOID = ("monoterpene hydrocarbons", *OXYGENATED)
SESQUITERPENOID = (
    *("sesquiterpene hydrocarbons", "sesquiterpene alcohols"),
    *("sesquiterpene ketones", "sesquiterpene oxides"),
)
BENZENOID = ("benzenoid alcohols", "benzenoid aldehydes", "benzenoid esters")

FAMILIES = [
    (
        TABLE_2014,
        "terpene hydrocarbons, monoterpene",
        ("monoterpene hydrocarbons",),
        "138-86-3 80-56-8 127-91-3 123-35-3",
    ),
    (
        TABLE_2014,
        "terpene hydrocarbons, sesquiterpenes",
        ("sesquiterpene hydrocarbons",),
        "87-44-5 6753-98-6 502-61-4 18794-84-8",
    ),
    (TABLE_2014, "oxygenated monoterpene", OXYGENATED, "76-22-2 99-48-9"),
    (
        TABLE_2014,
        "oxygenated sesquiterpenes",
        ("sesquiterpene alcohols", "sesquiterpene ketones", "sesquiterpene oxides"),
        "1139-30-6",
    ),
    (TABLE_2014, "phenols", ("monoterpene phenols",), "97-53-0"),
    (TABLE_2014, "simple alcohols", ("aliphatic alcohols",), "67-63-0"),
    (
        TABLE_2014,
        "monoterpene alcohols",
        ("monoterpene alcohols",),
        "106-24-1 106-25-2 470-82-6",
    ),
    (
        TABLE_2014,
        "sesquiterpenes alcohols",
        ("sesquiterpene alcohols",),
        "4602-84-0 7212-44-4",
    ),
    (
        TABLE_2014,
        "esters",
        ("monoterpene esters", "aliphatic esters", "benzenoid esters"),
        "76-49-3 141-78-6",
    ),
    (
        SCHEME,
        "monoterpenes",
        MONOTERPENOID,
        "80-56-8 106-25-2 5392-40-5 76-22-2 1490-04-6 138-86-3",
    ),
    (SCHEME, "sesquiterpenes", SESQUITERPENOID, "7212-44-4 4602-84-0"),
    (
        HANDBOOK,
        "hydrocarbons of turpentine",
        ("monoterpene hydrocarbons",),
        "127-91-3 13466-78-9 79-92-5",
    ),
    (
        HANDBOOK,
        "alcohols and their esters",
        ("monoterpene alcohols",),
        "106-24-1 106-25-2 106-22-9",
    ),
    (
        HANDBOOK,
        "from shikimic acid, one ring carbon",
        BENZENOID,
        "100-51-6 140-11-4 100-52-7 119-36-8 134-20-3",
    ),
    (ENCYCLOPAEDIA, "ketone", ("monoterpene ketones",), "76-22-2"),
    (ENCYCLOPAEDIA, "alcohol", ("monoterpene alcohols",), "507-70-0"),
    (
        ENCYCLOPAEDIA,
        "ether, bridging peroxide",
        ("monoterpene oxides",),
        "470-82-6 512-85-6",
    ),
    (
        CHEBI,
        "monoterpenoid",
        MONOTERPENOID,
        "16409-43-1 89-83-8 562-74-3 1125-12-8",
    ),
    (
        REVIEW_2008,
        "terpenes, carbures",
        ("monoterpene hydrocarbons",),
        (
            "123-35-3 13877-91-3 99-86-5 99-85-4 99-87-6 99-83-2 555-10-2 80-56-8"
            " 127-91-3 13466-78-9 79-92-5 3387-41-5"
        ),
    ),
    (
        REVIEW_2008,
        "terpenes, alcohols",
        ("monoterpene alcohols",),
        (
            "106-24-1 78-70-6 106-22-9 498-16-8 106-25-2 1490-04-6 98-55-5 99-48-9"
            " 507-70-0"
        ),
    ),
    (
        REVIEW_2008,
        "terpenes, aldehydes",
        ("monoterpene aldehydes",),
        "141-27-5 106-26-3 106-23-0",
    ),
    (
        REVIEW_2008,
        "terpenes, ketones",
        ("monoterpene ketones",),
        "10458-14-7 99-49-0 89-82-7 89-81-6 76-22-2 1195-79-5 1125-12-8",
    ),
    (
        REVIEW_2008,
        "terpenes, esters",
        ("monoterpene esters",),
        "115-95-7 150-84-5 89-48-5 80-26-2 125-12-2",
    ),
    (
        REVIEW_2008,
        "terpenes, ethers and peroxides",
        ("monoterpene oxides",),
        "470-82-6 494-90-6 512-85-6",
    ),
    (REVIEW_2008, "terpenes, phenols", ("monoterpene phenols",), "89-83-8 499-75-2"),
    (
        REVIEW_2008,
        "sesquiterpenes, carbures",
        ("sesquiterpene hydrocarbons",),
        "495-61-4 483-76-1 87-44-5 475-20-7 644-30-4 502-61-4 18794-84-8 529-05-5",
    ),
    (
        REVIEW_2008,
        "sesquiterpenes, alcohols",
        ("sesquiterpene alcohols",),
        "515-69-5 77-53-2 7212-44-4 4602-84-0 77-42-9 5986-55-0 552-02-3",
    ),
    (
        REVIEW_2008,
        "sesquiterpenes, ketones",
        ("sesquiterpene ketones",),
        "4674-50-4 18444-79-6",
    ),
    (
        REVIEW_2008,
        "sesquiterpenes, epoxide",
        ("sesquiterpene oxides",),
        "1139-30-6",
    ),
    (
        REVIEW_2008,
        (
            "aromatic compounds: aldehyde, alcohol, phenols, methoxy and methylenedioxy"
            " derivatives"
        ),
        (ALKENYL,),
        "104-55-2 104-54-1 97-53-0 104-46-1 487-11-6 140-67-0 93-15-2 607-91-0 94-59-7",
    ),
]

FAMILIES_THAT_DIFFER = {
    ("97-53-0", "phenols"): "eugenol is a phenol, and its skeleton is C6-C3: we show"
    " it with the other phenylpropanoids, as the review of 2008 does",
    ("470-82-6", "monoterpene alcohols"): "eucalyptol has no hydroxyl: it is an ether,"
    " and the table of 2014 is alone with its alcohol",
}

# S. J. Enoch, J. C. Madden and M. T. D. Cronin, SAR and QSAR in Environmental
# Research 19 (2008) 555-578: the domains that its patterns give, or give precursors
# of. The patterns were read in a public transcription and run in RDKit 2026.9.1 on
# every structure of the table; whatever is not named here fitted none of them.
DOMAINS_2008 = {
    "Michael acceptor": (
        "79-77-6 93-15-2 93-29-8 97-53-0 97-54-1 99-49-0 101-85-9 101-86-0 "
        "103-41-3 104-46-1 104-54-1 104-55-2 111-12-6 121-33-5 122-40-7 "
        "127-41-3 140-67-0 487-11-6 564-94-3 2244-16-8 4180-23-8 5912-86-7 "
        "5932-68-3 6485-40-1 14371-10-9 14901-07-6 23696-85-7 23726-91-2 "
        "23726-92-3 23726-93-4 24720-09-0 25679-28-1 43052-87-5 57378-68-4"
    ),
    "SN2": (
        "103-41-3 105-87-3 123-68-2 140-11-4 141-12-8 737-52-0 1139-30-6 7380-40-7"
    ),
    "Schiff base": (
        "77-42-9 80-54-6 80-57-9 89-81-6 89-82-7 90-02-8 99-49-0 100-52-7 "
        "106-23-0 106-24-1 106-25-2 106-26-3 106-28-5 107-75-5 110-41-8 "
        "112-31-2 112-44-7 112-45-8 112-54-9 115-71-9 120-57-0 121-32-4 "
        "121-33-5 123-11-5 124-13-0 124-19-6 127-51-5 141-27-5 488-10-8 "
        "564-94-3 2244-16-8 4602-84-0 4674-50-4 5392-40-5 6485-40-1 15764-04-2 "
        "18444-79-6 23696-85-7 23726-91-2 23726-92-3 23726-93-4 31906-04-4 "
        "32388-55-9"
    ),
    "acyl transfer": (
        "93-28-7 93-29-8 105-87-3 115-95-7 118-58-1 120-51-4 123-68-2 140-11-4 "
        "141-12-8 17369-59-4"
    ),
}
