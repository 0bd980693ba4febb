using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>An installation with a study of its routes.</summary>
/// <param name="Answer">The study.</param>
/// <param name="Installation">The installation.</param>
internal sealed record RouteStudy(StudyRoutesResponse Answer, Installation Installation);
