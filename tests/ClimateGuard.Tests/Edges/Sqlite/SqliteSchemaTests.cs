using ClimateGuard.Edges.Sqlite;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class SqliteSchemaTests : IDisposable
{
    private readonly SqliteConnection connection = new("Data Source=:memory:");

    public SqliteSchemaTests() => connection.Open();

    public void Dispose() => connection.Dispose();

    [Fact]
    public void A_file_of_an_earlier_release_takes_only_the_steps_it_has_not_seen()
    {
        new SqliteSchema("CREATE TABLE a(x)").Apply(connection);
        Do("INSERT INTO a VALUES(1)");
        var newer = new SqliteSchema("CREATE TABLE a(x)", "ALTER TABLE a ADD y DEFAULT 2", "CREATE TABLE b(x)");
        newer.Apply(connection);
        newer.Apply(connection);

        Assert.Equal(3L, Do("PRAGMA user_version"));
        Assert.Equal(2L, Do("SELECT y FROM a WHERE x = 1"));
    }

    [Fact]
    public void A_step_that_fails_leaves_the_older_shape_whole()
    {
        new SqliteSchema("CREATE TABLE a(x)").Apply(connection);
        Assert.Throws<SqliteException>(() => new SqliteSchema("CREATE TABLE a(x)", "CREATE TABLE b(x); CREATE TABLE a(x)").Apply(connection));

        Assert.Equal(1L, Do("PRAGMA user_version"));
        Assert.Equal(0L, Do("SELECT count(*) FROM sqlite_schema WHERE name = 'b'"));
    }

    [Fact]
    public void A_file_of_a_newer_release_is_refused_untouched()
    {
        Do("PRAGMA user_version = 9");
        var fault = Assert.Throws<StoreUnavailableException>(() => new SqliteSchema("CREATE TABLE a(x)").Apply(connection));
        Assert.Contains("newer release", fault.Message, StringComparison.Ordinal);
        Assert.Equal(0L, Do("SELECT count(*) FROM sqlite_schema"));
    }

    private object? Do(string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }
}
