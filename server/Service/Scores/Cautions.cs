namespace CableCatalog.Service.Scores;

/// <summary>What to heed before acting on a score.</summary>
internal static class Cautions
{
    /// <summary>The cautions.</summary>
    public static V1.Cautions All() => new()
    {
        OneLine = "Caution: engine off, boat secured, clear of hung weights; makers' instructions and rated loads come first.",
        InFull =
        {
            "Stop the engine, take out the key and secure the boat before working on a control or hanging weights on it.",
            "Keep hands, feet and other people clear of hung weights, of the deflector and of anything the control moves; "
                + "a load may fall or drive the control back when a cable is taken off.",
            "Do not exceed the rated loads of the cable, the control or the driven part, in a test or in use.",
            "A control that jams or locks is a loss-of-control hazard: do not run the boat with it.",
            "Coefficients called assumed were not measured on anything; a prediction is not a promise. "
                + "Test the finished control through its whole travel, both ways, before leaving the berth.",
            "The makers' instructions and local codes come before anything said here. "
                + "Have safety-critical work checked by a licensed marine technician.",
        },
    };
}
